/** A value at a time. `time` in any unit from any origin (years, days), `value` in any unit. */
export type Point = { time: number; value: number }

/** The answer of every function here that has too little to go on: what it had, and what it needs. */
export type TooFew = { kind: 'too-few'; have: number; need: number }

/** Fewer distinct times than this carry no test and no slope: two points always make a line. */
export const TIMES_MIN = 3

/** Throws RangeError, naming the list, on a number that is not finite: forms refuse those, so it is our bug. */
export function requireFinite(what: string, values: Iterable<number>): void {
  for (const value of values) {
    if (!Number.isFinite(value)) throw new RangeError(`${what} holds ${value}, which is not finite`)
  }
}

/** Throws RangeError on a point that is not finite. */
export function requireFinitePoints(points: readonly Point[]): void {
  for (const { time, value } of points) {
    if (!Number.isFinite(time) || !Number.isFinite(value)) {
      throw new RangeError(`point (${time}, ${value}) is not finite`)
    }
  }
}

/** Throws RangeError unless 0 < share < 1 (confidence levels, false-alarm shares, spans). */
export function requireShare(what: string, share: number): void {
  if (!(share > 0 && share < 1)) throw new RangeError(`${what} must lie between 0 and 1, not ${share}`)
}

/** The points in time order, then by value: one fixed order, whatever order they came in. */
export function inTimeOrder(points: readonly Point[]): Point[] {
  return [...points].sort((a, b) => a.time - b.time || a.value - b.value)
}

/** How many different times there are. */
export function distinctTimes(points: readonly Point[]): number {
  // In time order, as readings mostly come, each new time is greater than the one before.
  let count = 0
  let before = Number.NEGATIVE_INFINITY
  for (const { time } of points) {
    if (time < before) return new Set(points.map((point) => point.time)).size
    if (time > before) count++
    before = time
  }
  return count
}

/** Element i of a typed array or list that is known to hold it; throws where that belief is wrong. */
export function at(list: ArrayLike<number>, i: number): number {
  const value = list[i]
  if (value === undefined) throw new RangeError(`no element ${i} in a list of ${list.length}`)
  return value
}
