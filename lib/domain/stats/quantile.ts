import { at, requireFinite } from './shape'

/**
 * Sample quantile, linear between order statistics: type 7 of Hyndman & Fan 1996 (R's default).
 *
 * Shape   values in any order, at least one; p from 0 to 1.
 * Throws  RangeError on an empty list, a value that is not finite, or p outside 0..1.
 */
export function quantile(values: readonly number[], p: number): number {
  requireFinite('the list of values', values)
  if (values.length === 0) throw new RangeError('an empty list has no quantile')
  if (!(p >= 0 && p <= 1)) throw new RangeError(`a quantile needs a share from 0 to 1, not ${p}`)
  return atRank(ascending(values), 1 + (values.length - 1) * p)
}

/** The middle value, or the mean of the middle two. Throws RangeError as `quantile` does. */
export function median(values: readonly number[]): number {
  return quantile(values, 0.5)
}

/**
 * Median distance from the median, times `scale`: with the default 1.4826 it estimates the standard
 * deviation of normal data (Hampel 1974). Throws RangeError as `quantile` does.
 */
export function medianAbsoluteDeviation(values: readonly number[], scale = 1.4826): number {
  const middle = median(values)
  return scale * median(values.map((value) => Math.abs(value - middle)))
}

/**
 * The value at rank r of a list in ascending order, 1 = smallest, linear between neighbours.
 * Throws RangeError when r lies outside 1..n: there is nothing to read there.
 */
export function atRank(sorted: ArrayLike<number>, rank: number): number {
  if (!(rank >= 1 && rank <= sorted.length)) {
    throw new RangeError(`no rank ${rank} in a list of ${sorted.length}`)
  }
  const below = Math.floor(rank)
  const low = at(sorted, below - 1)
  return below === rank ? low : low + (rank - below) * (at(sorted, below) - low)
}

/** A sorted copy, smallest first. */
export function ascending(values: Iterable<number>): Float64Array {
  return Float64Array.from(values).sort()
}
