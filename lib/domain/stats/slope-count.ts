import { at } from './shape'

/** A record in time order, ready for counting: centred so that far-off origins cost no digits. */
export type Series = {
  time: Float64Array
  value: Float64Array
  centredTime: Float64Array
  centredValue: Float64Array
  /** Start of each run of equal times, and the length at the end. */
  runs: number[]
  /** Pairs at different times: the number of slopes. */
  slopes: number
  reachTime: number
  reachValue: number
}

/** How many slopes lie below a trial slope: at least `certain`, at most `possible`. */
export type Below = { certain: number; possible: number }

/** Prepares a record; `time` and `value` in ascending time. */
export function seriesOf(time: Float64Array, value: Float64Array): Series {
  const n = time.length
  const middleTime = n > 0 ? at(time, n >> 1) : 0
  const middleValue = n > 0 ? at(value, n >> 1) : 0
  const centredTime = time.map((t) => t - middleTime)
  const centredValue = value.map((v) => v - middleValue)
  const runs = [0]
  for (let i = 1; i < n; i++) if (at(time, i) !== at(time, i - 1)) runs.push(i)
  runs.push(n)
  let slopes = (n * (n - 1)) / 2
  for (let r = 1; r < runs.length; r++) {
    const size = at(runs, r) - at(runs, r - 1)
    slopes -= (size * (size - 1)) / 2
  }
  const reach = (list: Float64Array) => list.reduce((most, v) => Math.max(most, Math.abs(v)), 0)
  return {
    time,
    value,
    centredTime,
    centredValue,
    runs,
    slopes,
    reachTime: reach(centredTime),
    reachValue: reach(centredValue),
  }
}

/** The slope of a pair, later minus earlier, computed one way everywhere so that equal means equal. */
export function slopeBetween(series: Series, earlier: number, later: number): number {
  const { time, value } = series
  return (at(value, later) - at(value, earlier)) / (at(time, later) - at(time, earlier))
}

/** What is left of the values when a line of the trial slope is taken out. */
export function residuals(series: Series, trial: number): Float64Array {
  return series.centredValue.map((v, i) => v - trial * at(series.centredTime, i))
}

/**
 * How many slopes lie below a trial slope, in n log n and n memory: those pairs whose residuals fall.
 * Pairs closer than rounding can tell apart are possible, not certain.
 */
export function countBelow(series: Series, trial: number): Below {
  if (trial === -Infinity) return { certain: 0, possible: 0 }
  if (trial === Infinity) return { certain: series.slopes, possible: series.slopes }
  const margin = 32 * Number.EPSILON * (series.reachValue + Math.abs(trial) * series.reachTime)
  const rest = residuals(series, trial)
  const below = { certain: 0, possible: 0 }
  for (let r = 1; r < series.runs.length; r++) {
    const same = rest.slice(at(series.runs, r - 1), at(series.runs, r))
    if (same.length > 1) tally(same, margin, below, -1)
  }
  tally(rest, margin, below, 1)
  return below
}

/** Merge sort that adds `sign` for each pair i < j whose values fall, surely or possibly. */
function tally(list: Float64Array, margin: number, below: Below, sign: 1 | -1): void {
  let from: Float64Array = list
  let into: Float64Array = new Float64Array(list.length)
  const n = list.length
  for (let width = 1; width < n; width *= 2) {
    for (let start = 0; start < n; start += 2 * width) {
      const middle = Math.min(start + width, n)
      const end = Math.min(start + 2 * width, n)
      compareHalves(from, start, middle, end, margin, below, sign)
      merge(from, into, start, middle, end)
    }
    ;[from, into] = [into, from]
  }
}

function compareHalves(
  list: Float64Array,
  start: number,
  middle: number,
  end: number,
  margin: number,
  below: Below,
  sign: 1 | -1,
): void {
  let atMost = start
  let under = start
  for (let right = middle; right < end; right++) {
    const value = at(list, right)
    while (atMost < middle && at(list, atMost) <= value + margin) atMost++
    while (under < middle && at(list, under) < value - margin) under++
    below.certain += sign * (middle - atMost)
    below.possible += sign * (middle - under)
  }
}

function merge(from: Float64Array, into: Float64Array, start: number, middle: number, end: number): void {
  let left = start
  let right = middle
  for (let k = start; k < end; k++) {
    into[k] =
      right >= end || (left < middle && at(from, left) <= at(from, right))
        ? at(from, left++)
        : at(from, right++)
  }
}
