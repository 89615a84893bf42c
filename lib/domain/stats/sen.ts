import { kendallCount } from './kendall'
import { atRank, median } from './quantile'
import {
  distinctTimes,
  inTimeOrder,
  type Point,
  requireFinitePoints,
  requireShare,
  TIMES_MIN,
  type TooFew,
} from './shape'
import { seriesOf } from './slope-count'
import { slopesAtRanks } from './slope-select'
import { normalQuantile } from './special'

/** Limits of a slope, or that the record is too short for any at that level. */
export type SlopeLimits =
  | { kind: 'limits'; lower: number; upper: number; level: number }
  | { kind: 'no-limits'; level: number; reason: 'too-short-for-level' }

export type SenSlope = {
  kind: 'slope'
  /** Median of the slopes of all pairs at different times, in value per time. */
  slope: number
  /** Value of the line at time 0: median(value) - slope * median(time) (Conover 1980). */
  intercept: number
  limits: SlopeLimits
  /** How many slopes the median is of. */
  slopes: number
}

/**
 * Theil-Sen line with confidence limits of its slope.
 *
 * Shape   points in any order; two at the same time are never paired. `level` is the confidence, 0..1.
 * Units   slope in value per time.
 * Answer  'too-few' under three distinct times. Limits: ranks (N - C)/2 and (N + C)/2 + 1 of the N ordered
 *         slopes, C = z sqrt(varS), linear between ranks; 'no-limits' where those ranks do not exist.
 * Throws  RangeError on a point that is not finite, or a level outside 0..1.
 * Source  Sen 1968, J. Am. Stat. Assoc. 63:1379-1389; ranks by Gilbert 1987, p. 217-218.
 * Cost    see `slopesAtRanks`: never holds all slopes of a long record.
 */
export function senSlope(points: readonly Point[], level = 0.95): SenSlope | TooFew {
  requireFinitePoints(points)
  requireShare('the confidence level', level)
  const have = distinctTimes(points)
  if (have < TIMES_MIN) return { kind: 'too-few', have, need: TIMES_MIN }
  const sorted = inTimeOrder(points)
  const times = sorted.map((point) => point.time)
  const values = sorted.map((point) => point.value)
  const series = seriesOf(Float64Array.from(times), Float64Array.from(values))
  const { varS } = kendallCount(times, values)
  const pick = (ranks: readonly number[]) => slopesAtRanks(series, ranks)
  const { slope, limits } = medianWithLimits(series.slopes, varS, level, pick)
  return {
    kind: 'slope',
    slope,
    intercept: median(values) - slope * median(times),
    limits,
    slopes: series.slopes,
  }
}

/**
 * The median of `count` ordered slopes and its limits, from whatever can pick slopes by rank.
 * `varS` is the variance of the Kendall count over the same pairs.
 */
export function medianWithLimits(
  count: number,
  varS: number,
  level: number,
  pick: (ranks: readonly number[]) => number[],
): { slope: number; limits: SlopeLimits } {
  const spread = normalQuantile((1 + level) / 2) * Math.sqrt(varS)
  const middle = (count + 1) / 2
  const lowerRank = (count - spread) / 2
  const upperRank = (count + spread) / 2 + 1
  const exist = lowerRank >= 1 && upperRank <= count
  const wanted = exist ? [middle, lowerRank, upperRank] : [middle]
  const picked = pick(wanted.flatMap((rank) => [Math.floor(rank), Math.ceil(rank)]))
  const between = (k: number, rank: number) =>
    atRank(picked.slice(2 * k, 2 * k + 2), 1 + rank - Math.floor(rank))
  const limits: SlopeLimits = exist
    ? { kind: 'limits', lower: between(1, lowerRank), upper: between(2, upperRank), level }
    : { kind: 'no-limits', level, reason: 'too-short-for-level' }
  return { slope: between(0, middle) + 0, limits }
}
