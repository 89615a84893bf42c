import type { Day } from '@/lib/domain/quantity/day'

/** One value on one day, in the unit of its chart. */
export type ChartPoint = {
  id: string
  on: Day
  value: number
  /** False where the reckoning set the value aside: an open mark, and no line goes through it. */
  used: boolean
  /**
   * The true value lies below (or above) `value`, as a result under its reporting limit does: an open
   * mark that points there, and no line goes through it. Left out where the value is the value.
   */
  bound?: 'below' | 'above'
}

export type ChartSeries = {
  name: string
  mark: MarkShape
  /** Stretches that a line joins; no line is drawn from one to the next. One point a stretch: no line at all. */
  stretches: readonly (readonly ChartPoint[])[]
}

export type MarkShape = 'disc' | 'diamond' | 'square' | 'triangle'

/** A region between two values through time: an interval. At least two days, in order of time. */
export type ChartBand = { name: string; points: readonly { on: Day; low: number; high: number }[] }

/** A level across the whole picture: a baseline, a threshold, a limit. `name` is for the legend, `short` for the line. */
export type ChartLimit = { name: string; short?: string; value: number }

/** Something that happened on a day: a line from top to bottom with a letter, which the legend explains. */
export type ChartEvent = { on: Day; name: string }

/**
 * What is expected: the picture is tinted from `from` on, and each crossing is drawn at its value as a bar from
 * the early to the late end of its interval with a mark at its middle. An end that is null is open: an arrow.
 */
export type ChartForecast = {
  from: Day
  crossings: readonly { name: string; value: number; low: Day | null; on: Day | null; high: Day | null }[]
}

/** What a picture may show beside its series. Everything is in the unit and on the time axis of the series. */
export type ChartExtras = {
  bands?: readonly ChartBand[]
  limits?: readonly ChartLimit[]
  events?: readonly ChartEvent[]
  forecast?: ChartForecast | null
  /** First and last day of the time axis. Charts that are given the same span line up below each other. */
  span?: ChartSpan
}

export type ChartSpan = { from: Day; to: Day }

/** A plain day on the axis, at noon UTC: no zone moves it to another day. */
export function onAxis(day: Day): Date {
  return new Date(`${day}T12:00:00Z`)
}

/** The letter of the event at this place of the list: A to Z, then A2 and so on. */
export function letterOf(index: number): string {
  const round = Math.floor(index / 26)
  return String.fromCharCode(65 + (index % 26)) + (round === 0 ? '' : String(round + 1))
}
