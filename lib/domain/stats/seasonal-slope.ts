import { kendallCount } from './kendall'
import { type SeasonalValue, seasonsOf } from './season-cells'
import { selectRanks } from './select'
import { medianWithLimits, type SlopeLimits } from './sen'
import { requireShare, TIMES_MIN, type TooFew } from './shape'
import { seriesOf } from './slope-count'
import { allSlopes } from './slope-select'

export type SeasonalSlope = { kind: 'slope'; slope: number; limits: SlopeLimits; slopes: number }

/**
 * Seasonal Kendall slope: the median of the slopes between years of the same season, all seasons
 * together, with confidence limits.
 *
 * Shape   as `seasonalKendall`. Units: value per year.
 * Answer  'too-few' where no season has three years; limits as in `senSlope`. They take the seasons as
 *         independent: where `seasonalKendall` finds memory they are too narrow, so `varS` (its dependent
 *         variance) can be handed in.
 * Throws  RangeError on a year or value that is not finite, a level outside 0..1, a negative varS.
 * Source  Hirsch, Slack & Smith 1982; limits by Gilbert 1987, p. 227-228.
 * Cost    holds one slope a pair within a season: 60 years of months make 21,000.
 */
export function seasonalSlope(
  values: readonly SeasonalValue[],
  level = 0.95,
  varS?: number,
): SeasonalSlope | TooFew {
  requireShare('the confidence level', level)
  if (varS !== undefined && !(varS >= 0)) throw new RangeError(`a variance is never ${varS}`)
  const seasons = seasonsOf(values)
  const have = Math.max(0, ...seasons.map((season) => season.points.length))
  if (have < TIMES_MIN) return { kind: 'too-few', have, need: TIMES_MIN }
  const times = seasons.map(({ points }) => points.map((point) => point.time))
  const levels = seasons.map(({ points }) => points.map((point) => point.value))
  const bySeason = times.map((time, i) =>
    allSlopes(seriesOf(Float64Array.from(time), Float64Array.from(levels[i] ?? []))),
  )
  const slopes = new Float64Array(bySeason.reduce((sum, some) => sum + some.length, 0))
  let filled = 0
  for (const some of bySeason) {
    slopes.set(some, filled)
    filled += some.length
  }
  const independent = times.reduce((sum, time, i) => sum + kendallCount(time, levels[i] ?? []).varS, 0)
  const pick = (ranks: readonly number[]) => selectRanks(slopes, ranks)
  return {
    kind: 'slope',
    ...medianWithLimits(slopes.length, varS ?? independent, level, pick),
    slopes: slopes.length,
  }
}
