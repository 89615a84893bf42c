import { type KendallTest, type NormalTest, normalTest } from './kendall'
import { mannKendall } from './mann-kendall'
import { senSlope } from './sen'
import { at, inTimeOrder, type Point, type TooFew } from './shape'
import { normalQuantile } from './special'

/** Under this many values no autocorrelation is worth correcting with. */
const MEMORY_N_MIN = 10

export type MemoryTest = NormalTest & {
  kind: 'test'
  s: number
  /** Variance with memory allowed for. */
  varS: number
  /** varS over the variance without memory: above 1, values count for less than their number. */
  inflation: number
  /** Lags whose rank correlation was significant and used, with it. */
  lags: { lag: number; correlation: number }[]
}

/**
 * Mann-Kendall test that allows for memory from one value to the next: the variance is inflated by the
 * autocorrelation of the ranks that is left when the Sen line is taken out.
 *
 * Shape   points in any order, taken as evenly spaced in time order: use it on regular series, and
 *         `seasonalKendall(...).dependent` on monthly ones.
 * Options `lagMax` (3): only so many lags are looked at, as long sums of noise can shrink a variance
 *         to nothing. `mayShrink` (false): whether negative correlation, as a season leaves, may make
 *         the evidence stronger than without memory.
 * Answer  'too-few' under ten values. An S whose variance falls to 0 gives p = 1.
 * Throws  RangeError on a point that is not finite, or a lagMax below 1.
 * Source  Hamed & Rao 1998, J. Hydrol. 204:182-196; lags significant at 5 % two-sided.
 */
export function mannKendallWithMemory(
  points: readonly Point[],
  { lagMax = 3, mayShrink = false }: { lagMax?: number; mayShrink?: boolean } = {},
): MemoryTest | TooFew {
  if (!(lagMax >= 1)) throw new RangeError(`at least one lag must be looked at, not ${lagMax}`)
  const plain: KendallTest | TooFew = mannKendall(points)
  const line = senSlope(points)
  if (points.length < MEMORY_N_MIN) return { kind: 'too-few', have: points.length, need: MEMORY_N_MIN }
  if (plain.kind === 'too-few') return plain
  if (line.kind === 'too-few') return line
  const rest = inTimeOrder(points).map(({ time, value }) => value - line.slope * time)
  const n = rest.length
  const lags = significantLags(midRanks(rest), Math.min(lagMax, n - 1))
  const sum = lags.reduce(
    (total, { lag, correlation }) => total + (n - lag) * (n - lag - 1) * (n - lag - 2) * correlation,
    0,
  )
  const raw = Math.max(0, 1 + (2 / (n * (n - 1) * (n - 2))) * sum)
  const inflation = mayShrink ? raw : Math.max(1, raw)
  const varS = plain.varS * inflation
  return { kind: 'test', s: plain.s, varS, inflation, lags, ...normalTest(plain.s, varS) }
}

/** Ranks from 1, ties at their mean, in the order given. */
export function midRanks(values: readonly number[]): number[] {
  const order = values.map((_, i) => i).sort((a, b) => at(values, a) - at(values, b))
  const ranks = new Array<number>(values.length).fill(0)
  for (let start = 0; start < order.length; ) {
    let end = start + 1
    while (end < order.length && at(values, at(order, end)) === at(values, at(order, start))) end++
    for (let k = start; k < end; k++) ranks[at(order, k)] = (start + 1 + end) / 2
    start = end
  }
  return ranks
}

function significantLags(ranks: readonly number[], lagMax: number): { lag: number; correlation: number }[] {
  const n = ranks.length
  const centred = ranks.map((rank) => rank - (n + 1) / 2)
  const power = centred.reduce((sum, d) => sum + d * d, 0)
  if (power === 0) return []
  const bound = normalQuantile(0.975) / Math.sqrt(n)
  const found: { lag: number; correlation: number }[] = []
  for (let lag = 1; lag <= lagMax; lag++) {
    let sum = 0
    for (let i = lag; i < n; i++) sum += at(centred, i) * at(centred, i - lag)
    if (Math.abs(sum / power) > bound) found.push({ lag, correlation: sum / power })
  }
  return found
}
