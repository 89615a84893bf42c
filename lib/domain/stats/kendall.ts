import { sortCountingInversions } from './inversions'
import { exactKendallUpperTail } from './kendall-exact'
import { at, requireFinite, type TooFew } from './shape'
import { normalTwoSidedP } from './special'

/** Up to this many pairs without ties the p-value is counted exactly, beyond it is normal. */
const EXACT_N_MAX = 10

/** Kendall's count over all pairs of (x, y), and what ties do to it. */
export type KendallCount = {
  /** Pairs that agree in order minus pairs that disagree; pairs tied in x or in y count for neither. */
  s: number
  n: number
  /** All pairs, and those not tied in x, in y. */
  pairs: number
  pairsUntiedX: number
  pairsUntiedY: number
  /** Variance of s under no association, both kinds of ties allowed for. */
  varS: number
}

/** Kendall's test of association, with every convention by its own name. */
export type KendallTest = KendallCount & {
  kind: 'test'
  /** s over all pairs. */
  tauA: number
  /** s over the geometric mean of untied pairs; absent where x or y is constant, as it is then undefined. */
  tauB?: number
  /** The two-sided p to use: exact up to n = 10 without ties, else normal with continuity correction. */
  p: number
  pMethod: 'exact' | 'normal-continuity'
  /** Normal, with the continuity correction (|s| - 1). */
  z: number
  pNormal: number
  /** Normal, without it. */
  zWithoutContinuity: number
  pWithoutContinuity: number
}

/**
 * Kendall's S, tau and two-sided test between x and y.
 *
 * Shape   two lists of equal length, any order.
 * Answer  'too-few' under 3 pairs of values. A constant list gives s = 0, varS = 0, p = 1 and no tauB.
 * Throws  RangeError on unequal lengths or a value that is not finite.
 * Source  Kendall 1976, Rank Correlation Methods; variance with ties in both, his section 4.9.
 * Cost    n log n (Knight 1966).
 */
export function kendallTest(x: readonly number[], y: readonly number[]): KendallTest | TooFew {
  const count = kendallCount(x, y)
  if (count.n < 3) return { kind: 'too-few', have: count.n, need: 3 }
  return testOfCount(count)
}

/** Kendall's S of two lists of equal length, with its variance. Throws RangeError as `kendallTest` does. */
export function kendallCount(x: readonly number[], y: readonly number[]): KendallCount {
  if (x.length !== y.length) throw new RangeError(`${x.length} values cannot be paired with ${y.length}`)
  requireFinite('x', x)
  requireFinite('y', y)
  const n = x.length
  const order = orderBy(x, y)
  const yByX = Float64Array.from(order, (i) => at(y, i))
  const tiesX = tieSizes(Float64Array.from(order, (i) => at(x, i)))
  const tiedInBoth = pairsWithin(tieSizesOf(order, x, y))
  const discordant = sortCountingInversions(yByX)
  const tiesY = tieSizes(yByX)
  const pairs = (n * (n - 1)) / 2
  const pairsUntiedX = pairs - pairsWithin(tiesX)
  const pairsUntiedY = pairs - pairsWithin(tiesY)
  const untied = pairsUntiedX + pairsUntiedY - pairs + tiedInBoth
  return { s: untied - 2 * discordant, n, pairs, pairsUntiedX, pairsUntiedY, varS: variance(n, tiesX, tiesY) }
}

/** Indices by x, then y. Readings mostly come in time order already: then there is nothing to sort. */
function orderBy(x: readonly number[], y: readonly number[]): Int32Array {
  const order = Int32Array.from(x.keys())
  const inOrder = x.every((v, i) => {
    const before = i === 0 ? -Infinity : at(x, i - 1)
    return v > before || (v === before && at(y, i) >= at(y, i - 1))
  })
  return inOrder ? order : order.sort((a, b) => at(x, a) - at(x, b) || at(y, a) - at(y, b))
}

function testOfCount(count: KendallCount): KendallTest {
  const { s, n, varS, pairs, pairsUntiedX, pairsUntiedY } = count
  const normal = normalTest(s, varS)
  const untied = pairsUntiedX === pairs && pairsUntiedY === pairs
  const exact = untied && n <= EXACT_N_MAX
  const tauB = s / Math.sqrt(pairsUntiedX * pairsUntiedY)
  return {
    kind: 'test',
    ...count,
    ...normal,
    tauA: s / pairs,
    ...(pairsUntiedX > 0 && pairsUntiedY > 0 ? { tauB } : {}),
    p: exact ? Math.min(1, 2 * exactKendallUpperTail(n, Math.abs(s))) : normal.pNormal,
    pMethod: exact ? 'exact' : 'normal-continuity',
  }
}

/** What a count and its variance say on the normal scale, with and without continuity correction. */
export type NormalTest = Pick<KendallTest, 'z' | 'pNormal' | 'zWithoutContinuity' | 'pWithoutContinuity'>

/**
 * Normal test of a Kendall count s with variance varS. With no variance (all values equal) nothing
 * speaks against "no trend": z = 0 and p = 1.
 */
export function normalTest(s: number, varS: number): NormalTest {
  const sd = Math.sqrt(varS)
  const z = sd === 0 || s === 0 ? 0 : (Math.sign(s) * (Math.abs(s) - 1)) / sd
  const zWithoutContinuity = sd === 0 || s === 0 ? 0 : s / sd
  return {
    z,
    pNormal: normalTwoSidedP(z),
    zWithoutContinuity,
    pWithoutContinuity: normalTwoSidedP(zWithoutContinuity),
  }
}

/** Variance of S under no association, with ties in x and in y (Kendall 1976, section 4.9). */
function variance(n: number, tiesX: readonly number[], tiesY: readonly number[]): number {
  const sum = (ties: readonly number[], term: (t: number) => number) =>
    ties.reduce((total, t) => total + term(t), 0)
  const cubic = (t: number) => t * (t - 1) * (2 * t + 5)
  const triple = (t: number) => t * (t - 1) * (t - 2)
  const double = (t: number) => t * (t - 1)
  let varS = (cubic(n) - sum(tiesX, cubic) - sum(tiesY, cubic)) / 18
  if (n > 2) varS += (sum(tiesX, triple) * sum(tiesY, triple)) / (9 * triple(n))
  if (n > 1) varS += (sum(tiesX, double) * sum(tiesY, double)) / (2 * double(n))
  // A constant list has no variance; rounding must not leave a crumb of it, or a sign.
  const constant = tiesX[0] === n || tiesY[0] === n
  return constant ? 0 : Math.max(0, varS)
}

/** Sizes of the runs of equal values in a sorted list, runs of one included. */
function tieSizes(sorted: ArrayLike<number>): number[] {
  const sizes: number[] = []
  for (let i = 0, start = 0; i < sorted.length; i++) {
    if (i + 1 < sorted.length && at(sorted, i + 1) === at(sorted, i)) continue
    sizes.push(i + 1 - start)
    start = i + 1
  }
  return sizes
}

/** Sizes of the runs equal in x and in y, in an order sorted by x and then y. */
function tieSizesOf(order: Int32Array, x: readonly number[], y: readonly number[]): number[] {
  const run = new Float64Array(order.length)
  for (let k = 1; k < order.length; k++) {
    const same =
      at(x, at(order, k)) === at(x, at(order, k - 1)) && at(y, at(order, k)) === at(y, at(order, k - 1))
    run[k] = at(run, k - 1) + (same ? 0 : 1)
  }
  return tieSizes(run)
}

function pairsWithin(sizes: readonly number[]): number {
  return sizes.reduce((total, size) => total + (size * (size - 1)) / 2, 0)
}
