import { type KendallTest, kendallTest } from './kendall'
import { distinctTimes, type Point, requireFinitePoints, TIMES_MIN, type TooFew } from './shape'

/**
 * Mann-Kendall test for a trend in one direction: Kendall's test of the values against time.
 *
 * Shape   points in any order; two at the same time are never paired, and count as tied in the variance.
 * Answer  'too-few' under three distinct times. `p` names its method in `pMethod`.
 * Throws  RangeError on a point that is not finite.
 * Source  Mann 1945; Kendall 1976; Helsel et al. 2020, USGS TM 4-A3, section 12.2.
 * Note    Assumes no season and no memory from one value to the next: see `seasonalKendall` and
 *         `mannKendallWithMemory`.
 * Cost    n log n.
 */
export function mannKendall(points: readonly Point[]): KendallTest | TooFew {
  requireFinitePoints(points)
  const have = distinctTimes(points)
  if (have < TIMES_MIN) return { kind: 'too-few', have, need: TIMES_MIN }
  return kendallTest(
    points.map((point) => point.time),
    points.map((point) => point.value),
  )
}
