import type { Day } from '@/lib/domain/quantity/day'

/** A place on the axis along the foot: a day, or a use (volume, hours) counted from nothing. */
export type At = Day | number

/** One value on one day (or at one use), in the unit of its chart. */
export type ChartPoint<A extends At = Day> = {
  id: string
  on: A
  value: number
  /** False where the reckoning set the value aside: an open mark, and no line goes through it. */
  used: boolean
  /**
   * The true value lies below (or above) `value`, as a result under its reporting limit does: an open
   * mark that points there, and no line goes through it. Left out where the value is the value.
   */
  bound?: 'below' | 'above'
}

export type ChartSeries<A extends At = Day> = {
  name: string
  mark: MarkShape
  /** Stretches that a line joins; no line is drawn from one to the next. One point a stretch: no line at all. */
  stretches: readonly (readonly ChartPoint<A>[])[]
}

export type MarkShape = 'disc' | 'diamond' | 'square' | 'triangle'

/** A region between two values through time: an interval. At least two days, in order of time. */
export type ChartBand<A extends At = Day> = {
  name: string
  points: readonly { on: A; low: number; high: number }[]
}

/** A level across the whole picture: a baseline, a threshold, a limit. `name` is for the legend, `short` for the line. */
export type ChartLimit = { name: string; short?: string; value: number }

/** Something that happened on a day: a line from top to bottom with a letter, which the legend explains. */
export type ChartEvent<A extends At = Day> = { on: A; name: string }

/**
 * What is expected: the picture is tinted from `from` on, and each crossing is drawn at its value as a bar from
 * the early to the late end of its interval with a mark at its middle. An end that is null is open: an arrow.
 */
export type ChartForecast<A extends At = Day> = {
  from: A
  crossings: readonly { name: string; value: number; low: A | null; on: A | null; high: A | null }[]
}

/** What a picture may show beside its series. Everything is in the unit and on the axis of the series. */
export type ChartExtras<A extends At = Day> = {
  bands?: readonly ChartBand<A>[]
  limits?: readonly ChartLimit[]
  events?: readonly ChartEvent<A>[]
  forecast?: ChartForecast<A> | null
  /** First and last place of the axis. Charts that are given the same span line up below each other. */
  span?: ChartSpan<A>
  /** The value axis begins at nothing, so that a full tank looks full. */
  fromZero?: boolean
}

export type ChartSpan<A extends At = Day> = { from: A; to: A }

/** A plain day on the axis, in ms since 1970 at noon UTC: no zone moves it to another day. A use stands as it is. */
export function onAxis(at: At): number {
  return typeof at === 'number' ? at : Date.parse(`${at}T12:00:00Z`)
}

/** The letter of the event at this place of the list: A to Z, then A2 and so on. */
export function letterOf(index: number): string {
  const round = Math.floor(index / 26)
  return String.fromCharCode(65 + (index % 26)) + (round === 0 ? '' : String(round + 1))
}
