import { type KendallCount, kendallCount, type NormalTest, normalTest } from './kendall'
import { type Season, type SeasonalValue, seasonsOf } from './season-cells'
import { seasonCovariance } from './season-covariance'
import { distinctTimes, TIMES_MIN, type TooFew } from './shape'
import { chiSquareUpper } from './special'

/** Under ten years the covariance between seasons is too poorly known to correct with (Hirsch & Slack 1984). */
const COVARIANCE_YEARS_MIN = 10

/** Whether the seasons agree in direction (van Belle & Hughes 1984): a small p says that they do not. */
type Heterogeneity = { kind: 'heterogeneity'; chiSquare: number; df: number; p: number } | TooFew

/** The test with the covariance between seasons in its variance (Hirsch & Slack 1984). */
type DependentTest = ({ kind: 'test'; covariance: number; varS: number } & NormalTest) | TooFew

export type SeasonalKendall = NormalTest & {
  kind: 'test'
  /** Values used, one a season and year. */
  n: number
  years: number
  s: number
  /** Variance when seasons are independent of each other. */
  varS: number
  /** s over all pairs; over the sum of tau-b's denominators (absent where constant); the seasons' taus by n. */
  tau: number
  tauB?: number
  tauWeighted: number
  /** Allows for memory from season to season: believe this p, where there is one. */
  dependent: DependentTest
  heterogeneity: Heterogeneity
  seasons: { season: string | number; n: number; s: number; varS: number }[]
}

/**
 * Seasonal Kendall test: Mann-Kendall within each season, summed, so that no January is ever compared
 * with a July. With sites in place of seasons it is the regional Kendall test.
 *
 * Shape   values in any order, gaps allowed; several of one season and year become their median.
 * Answer  'too-few' where no season has three years. `pNormal` (with continuity) takes the seasons as
 *         independent; `dependent` does not, and needs ten years.
 * Throws  RangeError on a year or value that is not finite.
 * Source  Hirsch, Slack & Smith 1982, Water Resour. Res. 18:107-121; Hirsch & Slack 1984, Water Resour.
 *         Res. 20:727-732; van Belle & Hughes 1984, Water Resour. Res. 20:127-136; regional: Helsel &
 *         Frans 2006, Environ. Sci. Technol. 40:4066-4073.
 * Cost    n log n for the sums; (seasons x years)^2 / 4 for the covariance.
 */
export function seasonalKendall(values: readonly SeasonalValue[]): SeasonalKendall | TooFew {
  const seasons = seasonsOf(values)
  const have = Math.max(0, ...seasons.map((season) => season.points.length))
  if (have < TIMES_MIN) return { kind: 'too-few', have, need: TIMES_MIN }
  const counts = seasons.map(countOf)
  const total = (pick: (count: KendallCount) => number) => counts.reduce((sum, c) => sum + pick(c), 0)
  const s = total((c) => c.s)
  const varS = total((c) => c.varS)
  const pairs = total((c) => c.pairs)
  const comparable = total((c) => Math.sqrt(c.pairsUntiedX * c.pairsUntiedY))
  const n = total((c) => c.n)
  const paired = counts.filter((c) => c.pairs > 0)
  const pairedN = paired.reduce((sum, c) => sum + c.n, 0)
  return {
    kind: 'test',
    n,
    years: distinctTimes(seasons.flatMap((season) => season.points)),
    s,
    varS,
    ...normalTest(s, varS),
    tau: s / pairs,
    ...(comparable > 0 ? { tauB: s / comparable } : {}),
    tauWeighted: paired.reduce((sum, c) => sum + (c.n * c.s) / c.pairs, 0) / pairedN,
    dependent: dependentTest(seasons, s, varS),
    heterogeneity: heterogeneityOf(counts),
    seasons: counts.map((count, i) => ({ season: seasons[i]?.season ?? '', ...briefly(count) })),
  }
}

/** The regional Kendall test: sites in place of seasons. See `seasonalKendall`. */
export function regionalKendall(
  values: readonly { site: string | number; year: number; value: number }[],
): SeasonalKendall | TooFew {
  return seasonalKendall(values.map(({ site, year, value }) => ({ season: site, year, value })))
}

const countOf = ({ points }: Season): KendallCount =>
  kendallCount(
    points.map((point) => point.time),
    points.map((point) => point.value),
  )

const briefly = ({ n, s, varS }: KendallCount) => ({ n, s, varS })

function dependentTest(seasons: readonly Season[], s: number, varS: number): DependentTest {
  const have = distinctTimes(seasons.flatMap((season) => season.points))
  if (have < COVARIANCE_YEARS_MIN) return { kind: 'too-few', have, need: COVARIANCE_YEARS_MIN }
  const covariance = seasonCovariance(seasons.map((season) => season.points))
  const corrected = Math.max(0, varS + covariance)
  return { kind: 'test', covariance, varS: corrected, ...normalTest(s, corrected) }
}

/** Sum of squares of the seasons' z about their mean; no continuity correction (van Belle & Hughes 1984). */
function heterogeneityOf(counts: readonly KendallCount[]): Heterogeneity {
  const zs = counts.filter((c) => c.varS > 0).map((c) => c.s / Math.sqrt(c.varS))
  if (zs.length < 2) return { kind: 'too-few', have: zs.length, need: 2 }
  const mean = zs.reduce((sum, z) => sum + z, 0) / zs.length
  const chiSquare = zs.reduce((sum, z) => sum + (z - mean) ** 2, 0)
  const df = zs.length - 1
  return { kind: 'heterogeneity', chiSquare, df, p: chiSquareUpper(chiSquare, df) }
}
