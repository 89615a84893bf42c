import type { AllNonDetect, CensoredPoint } from './censored'
import { groupBySeason, varianceOf } from './censored-kendall'
import { type CensoredQuantile, kaplanMeier, kaplanMeierQuantile } from './kaplan-meier'
import type { SlopeLimits } from './sen'
import { distinctTimes, requireFinitePoints, requireShare, TIMES_MIN, type TooFew } from './shape'
import { normalQuantile } from './special'

export type AkritasTheilSen = {
  kind: 'slope'
  /** The slope that leaves no trend in what remains; the middle where a stretch of slopes does. */
  slope: number
  limits: SlopeLimits
  /** Value of the line at time 0: the Kaplan-Meier median of what remains, or that it lies below a value. */
  intercept: CensoredQuantile
}

/** Non-detects leave the slope open on one side: any slope past some bound leaves no certain trend. */
export type OpenSlope = { kind: 'open' }

/**
 * Theil-Sen line for values with non-detects, which stay non-detects: neither zero nor half the limit.
 *
 * Shape   points in any order; a non-detect carries its limit as `value`.
 * Answer  'too-few' under three distinct times, 'all-non-detect', or 'open' (see OpenSlope). Limits are where
 *         the count reaches +-z sqrt(varS), as for the Sen slope.
 * Throws  RangeError on a number that is not finite, or a level outside 0..1.
 * Source  Akritas, Murphy & LaValley 1995, J. Am. Stat. Assoc. 90:170-177; Helsel 2012, ch. 11. As the count of
 *         certain pairs only falls with the trial slope, its zero is found by sorting, not by search.
 * Cost    n^2 log n.
 */
export function akritasTheilSen(
  points: readonly CensoredPoint[],
  level = 0.95,
): AkritasTheilSen | OpenSlope | AllNonDetect | TooFew {
  return slopeOfGroups([points], level)
}

/** The same from pairs within a season only. Its intercept is the median over all seasons together. */
export function seasonalAkritasTheilSen(
  points: readonly (CensoredPoint & { season: string | number })[],
  level = 0.95,
): AkritasTheilSen | OpenSlope | AllNonDetect | TooFew {
  return slopeOfGroups([...groupBySeason(points).values()], level)
}

function slopeOfGroups(
  groups: readonly (readonly CensoredPoint[])[],
  level: number,
): AkritasTheilSen | OpenSlope | AllNonDetect | TooFew {
  const all = groups.flat()
  requireFinitePoints(all)
  requireShare('the confidence level', level)
  const have = Math.max(0, ...groups.map(distinctTimes))
  if (have < TIMES_MIN) return { kind: 'too-few', have, need: TIMES_MIN }
  if (all.every((point) => point.nonDetect)) return { kind: 'all-non-detect', n: all.length }
  const falls = groups.flatMap(fallsOf).sort((a, b) => a.slope - b.slope)
  const start = groups.reduce((sum, group) => sum + countAtSteepestFall(group), 0)
  const slope = crossing(start, falls, 0)
  if (slope === undefined) return { kind: 'open' }
  const spread =
    normalQuantile((1 + level) / 2) * Math.sqrt(groups.reduce((sum, group) => sum + varianceOf(group), 0))
  const lower = crossing(start, falls, spread)
  const upper = crossing(start, falls, -spread)
  const rest = kaplanMeier(all.map((p) => ({ value: p.value - slope * p.time, nonDetect: p.nonDetect })))
  if (rest.kind !== 'distribution') return rest
  return {
    kind: 'slope',
    slope,
    limits:
      lower === undefined || upper === undefined
        ? { kind: 'no-limits', level, reason: 'too-short-for-level' }
        : { kind: 'limits', lower, upper, level },
    intercept: kaplanMeierQuantile(rest, 0.5),
  }
}

/** By how much the count of certain pairs falls as the trial slope passes the slope of a pair. */
type Fall = { slope: number; by: 1 | 2 }

function fallsOf(points: readonly CensoredPoint[]): Fall[] {
  const falls: Fall[] = []
  points.forEach((a, i) => {
    for (const b of points.slice(i + 1)) {
      if (a.time === b.time || (a.nonDetect && b.nonDetect)) continue
      const slope = (b.value - a.value) / (b.time - a.time)
      falls.push({ slope, by: a.nonDetect || b.nonDetect ? 1 : 2 })
    }
  })
  return falls
}

/** The count when everything else is made to rise: pairs with a non-detect rise only if it comes first. */
function countAtSteepestFall(points: readonly CensoredPoint[]): number {
  let count = 0
  points.forEach((a, i) => {
    for (const b of points.slice(i + 1)) {
      if (a.time === b.time) continue
      const second = a.time < b.time ? b : a
      if (!second.nonDetect) count += 1
    }
  })
  return count
}

/** Where a count that starts at `start` and only falls passes `target`; none where it never does. */
function crossing(start: number, falls: readonly Fall[], target: number): number | undefined {
  let count = start
  if (count <= target) return undefined
  for (const [i, { slope, by }] of falls.entries()) {
    count -= by
    if (count < target) return slope
    if (count === target) {
      const next = falls[i + 1]
      return next ? (slope + next.slope) / 2 : undefined
    }
  }
  return undefined
}
