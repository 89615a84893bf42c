import type { AllNonDetect, CensoredPoint } from './censored'
import { certainOrder } from './censored'
import { type NormalTest, normalTest } from './kendall'
import { distinctTimes, requireFinitePoints, TIMES_MIN, type TooFew } from './shape'

/** Kendall's test of values with non-detects against time, both variances by name. */
export type CensoredKendall = NormalTest & {
  kind: 'test'
  n: number
  nonDetects: number
  /** Pairs certain to rise minus pairs certain to fall; a pair a non-detect leaves undecided counts for neither. */
  s: number
  tau: number
  /** Kendall's variance with ties and undecided pairs taken off (Gilroy). Used for z and p. */
  varS: number
}

/**
 * Trend test for values with non-detects: Mann-Kendall on the pairs whose order is certain.
 *
 * Shape   points in any order; a non-detect carries its limit as `value`; several limits allowed.
 * Answer  'too-few' under three distinct times; 'all-non-detect' where nothing was detected. `pNormal`
 *         has the continuity correction.
 * Throws  RangeError on a time, value or limit that is not finite.
 * Source  Helsel 2012, Statistics for Censored Environmental Data, ch. 11-12; variance after Gilroy's
 *         correction for ties and undecided pairs, as his programs and their successors have it.
 * Note    Limits that fell over the years make no trend here, as pairs they leave open do not count.
 * Cost    n^2 pairs.
 */
export function censoredKendall(points: readonly CensoredPoint[]): CensoredKendall | AllNonDetect | TooFew {
  return censoredKendallOfGroups([points])
}

/**
 * The same within each season (or site), summed: see `seasonalKendall`. Seasons of one time add nothing.
 * 'too-few' where no season has three distinct times.
 */
export function seasonalCensoredKendall(
  points: readonly (CensoredPoint & { season: string | number })[],
): CensoredKendall | AllNonDetect | TooFew {
  return censoredKendallOfGroups([...groupBySeason(points).values()])
}

export function groupBySeason<P extends { season: string | number }>(
  points: readonly P[],
): Map<string | number, P[]> {
  const groups = new Map<string | number, P[]>()
  for (const point of points) {
    const group = groups.get(point.season) ?? []
    groups.set(point.season, group)
    group.push(point)
  }
  return groups
}

function censoredKendallOfGroups(
  groups: readonly (readonly CensoredPoint[])[],
): CensoredKendall | AllNonDetect | TooFew {
  const all = groups.flat()
  requireFinitePoints(all)
  const have = Math.max(0, ...groups.map(distinctTimes))
  if (have < TIMES_MIN) return { kind: 'too-few', have, need: TIMES_MIN }
  const nonDetects = all.filter((point) => point.nonDetect).length
  if (nonDetects === all.length) return { kind: 'all-non-detect', n: all.length }
  const total = (of: (group: readonly CensoredPoint[]) => number) =>
    groups.reduce((sum, group) => sum + of(group), 0)
  const s = total(certainCount)
  const varS = total(varianceOf)
  const pairs = total((group) => (group.length * (group.length - 1)) / 2)
  return { kind: 'test', n: all.length, nonDetects, s, tau: s / pairs, varS, ...normalTest(s, varS) }
}

function certainCount(points: readonly CensoredPoint[]): number {
  let s = 0
  points.forEach((a, i) => {
    for (const b of points.slice(i + 1)) s += Math.sign(b.time - a.time) * certainOrder(b, a)
  })
  return s
}

/** Kendall's variance with ties in time and value, less what undecided pairs take (Gilroy). */
export function varianceOf(points: readonly CensoredPoint[]): number {
  const n = points.length
  const inTime = sizes(points.map((point) => `${point.time}`))
  const inValue = sizes(points.map((point) => `${point.nonDetect ? '<' : ''}${point.value}`))
  // Gilroy's correction: one for each undecided pair, given back once for each value tied with a limit.
  const limits = sizes(points.filter((point) => point.nonDetect).map((point) => `${point.value}`))
  const undecided = undecidedPairs(points) - limits.reduce((given, size) => given + size - 1, 0)
  const cubic = (t: number) => t * (t - 1) * (2 * t + 5)
  const triple = (t: number) => t * (t - 1) * (t - 2)
  const double = (t: number) => t * (t - 1)
  const sum = (ties: readonly number[], term: (t: number) => number) => ties.reduce((v, t) => v + term(t), 0)
  let varS = (cubic(n) - sum(inTime, cubic) - sum(inValue, cubic)) / 18 - undecided
  if (n > 2) varS += (sum(inTime, triple) * sum(inValue, triple)) / (9 * triple(n))
  if (n > 1) varS += (sum(inTime, double) * sum(inValue, double)) / (2 * double(n))
  return Math.max(0, varS)
}

function sizes(keys: readonly string[]): number[] {
  const counts = new Map<string, number>()
  for (const key of keys) counts.set(key, (counts.get(key) ?? 0) + 1)
  return [...counts.values()]
}

/** How many pairs a non-detect leaves undecided, those of equal limits included. */
function undecidedPairs(points: readonly CensoredPoint[]): number {
  let undecided = 0
  points.forEach((a, i) => {
    for (const b of points.slice(i + 1)) {
      if ((a.nonDetect || b.nonDetect) && certainOrder(a, b) === 0) undecided++
    }
  })
  return undecided
}
