import { scaleLinear, scaleUtc } from 'd3-scale'
import { type At, type ChartExtras, type ChartSeries, onAxis } from './shapes'

/** Drawn twice, once for each width of screen: the letters keep their size, and nothing is squeezed. */
export const SIZES = {
  wide: { width: 640, height: 240, ticks: 6 },
  narrow: { width: 340, height: 210, ticks: 4 },
} as const

export const GAP = 8
const TOP = 12
const EVENT_ROW = 18
const RIGHT = 14
const FOOT = 28
/** Width of a figure of an axis, px. */
export const LETTER = 7.4
const MONTH_MS = 30 * 86_400_000
/** With a given span the left edge stands here, so that charts below each other share their time axis. */
const SHARED_LEFT = 56

export type Frame = {
  left: number
  right: number
  top: number
  bottom: number
  x: (at: At) => number
  y: (value: number) => number
  xTicks: { at: number; text: string }[]
  yTicks: { at: number; text: string }[]
}

/** Where everything goes: the plot's edges, both scales and their ticks, with room for all that is to be shown. */
export function frameOf(
  size: keyof typeof SIZES,
  series: readonly ChartSeries<At>[],
  downwards: boolean,
  { bands = [], limits = [], events = [], forecast, span, fromZero }: ChartExtras<At>,
): Frame {
  const { width, height, ticks } = SIZES[size]
  const points = series.flatMap(({ stretches }) => stretches.flat())
  const ahead = forecast?.crossings ?? []
  const values = [
    ...points.map((point) => point.value),
    ...bands.flatMap((band) => band.points.flatMap(({ low, high }) => [low, high])),
    ...limits.map((limit) => limit.value),
    ...ahead.map((crossing) => crossing.value),
    ...(fromZero ? [0] : []),
  ]
  const top = TOP + (events.length > 0 ? EVENT_ROW : 0)
  const bottom = height - FOOT
  const right = width - RIGHT
  const y = scaleLinear(rangeOf(values, !downwards), downwards ? [top, bottom] : [bottom, top]).nice(5)
  const yTicks = y
    .ticks(5)
    .map((tick) => ({ at: y(tick), text: tick.toLocaleString('en-US', { maximumFractionDigits: 8 }) }))
  const needed = Math.max(...yTicks.map(({ text }) => text.length)) * LETTER + GAP * 2
  const left = span ? Math.max(SHARED_LEFT, needed) : needed
  const places = [
    ...points.map((point) => point.on),
    ...events.map((event) => event.on),
    ...bands.flatMap((band) => band.points.map((point) => point.on)),
    ...ahead.flatMap(({ low, on, high }) => [low, on, high].filter((at) => at !== null)),
  ]
  const axis = axisOf(places, span, [left, right], ticks)
  return {
    left,
    right,
    top,
    bottom,
    y: (value) => y(value),
    yTicks,
    ...axis,
  }
}

/** The scale along the foot: of time where the places are days, of use where they are numbers. */
function axisOf(
  places: readonly At[],
  span: ChartExtras<At>['span'],
  edges: [number, number],
  ticks: number,
): Pick<Frame, 'x' | 'xTicks'> {
  const ends = span ? [onAxis(span.from), onAxis(span.to)] : domainOf(places)
  if (typeof places[0] === 'number') {
    const x = scaleLinear(ends, edges)
    return {
      x: (at) => x(onAxis(at)),
      xTicks: x.ticks(ticks).map((tick) => ({ at: x(tick), text: tick.toLocaleString('en-US') })),
    }
  }
  const x = scaleUtc(ends, edges)
  const format = x.tickFormat(ticks)
  return {
    x: (at) => x(onAxis(at)),
    xTicks: x.ticks(ticks).map((tick) => ({ at: x(tick), text: format(tick) })),
  }
}

/** The ends of the value axis with a little room; a count that never went below zero is not shown below it. */
function rangeOf(values: readonly number[], floorAtZero: boolean): [number, number] {
  const low = Math.min(...values)
  const high = Math.max(...values)
  const room = (high - low || Math.abs(high) || 1) * 0.08
  return [floorAtZero && low >= 0 ? Math.max(0, low - room) : low - room, high + room]
}

function domainOf(places: readonly At[]): [number, number] {
  const along = places.map(onAxis)
  const [first, last] = [Math.min(...along), Math.max(...along)]
  const room = first === last ? MONTH_MS : (last - first) * 0.02
  return [first - room, last + room]
}
