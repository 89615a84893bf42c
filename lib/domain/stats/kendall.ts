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
  const n = x.length
  const xs = new Float64Array(x)
  const ys = new Float64Array(y)
  requireFinite('x', xs)
  requireFinite('y', ys)
  sortPairs(xs, ys)
  const tiesX = tieSums(xs)
  const tiedInBoth = pairsTiedInBoth(xs, ys)
  const discordant = sortCountingInversions(ys)
  const tiesY = tieSums(ys)
  const pairs = (n * (n - 1)) / 2
  const pairsUntiedX = pairs - tiesX.double / 2
  const pairsUntiedY = pairs - tiesY.double / 2
  const untied = pairsUntiedX + pairsUntiedY - pairs + tiedInBoth
  return { s: untied - 2 * discordant, n, pairs, pairsUntiedX, pairsUntiedY, varS: variance(n, tiesX, tiesY) }
}

/** Brings two lists in order of x, then y. Readings mostly come in time order already: then there is nothing to sort. */
function sortPairs(xs: Float64Array, ys: Float64Array): void {
  if (inOrder(xs, ys)) return
  const [byX, byY] = [xs.slice(), ys.slice()]
  const order = Int32Array.from(xs.keys()).sort((a, b) => at(byX, a) - at(byX, b) || at(byY, a) - at(byY, b))
  for (let k = 0; k < order.length; k++) {
    const i = at(order, k)
    xs[k] = at(byX, i)
    ys[k] = at(byY, i)
  }
}

function inOrder(xs: Float64Array, ys: Float64Array): boolean {
  for (let i = 1; i < xs.length; i++) {
    const before = at(xs, i - 1)
    const here = at(xs, i)
    if (here < before || (here === before && at(ys, i) < at(ys, i - 1))) return false
  }
  return true
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

/** Over the runs of equal values of a list: sums of t(t-1), t(t-1)(t-2) and t(t-1)(2t+5), t being a run's length. */
type TieSums = { double: number; triple: number; cubic: number; longest: number }

const double = (t: number) => t * (t - 1)
const triple = (t: number) => t * (t - 1) * (t - 2)
const cubic = (t: number) => t * (t - 1) * (2 * t + 5)

/** Of a sorted list. Runs of one add nothing. */
function tieSums(sorted: Float64Array): TieSums {
  const sums: TieSums = { double: 0, triple: 0, cubic: 0, longest: Math.min(1, sorted.length) }
  for (let start = 0, i = 1; i <= sorted.length; i++) {
    if (i < sorted.length && at(sorted, i) === at(sorted, start)) continue
    const t = i - start
    start = i
    if (t === 1) continue
    sums.double += double(t)
    sums.triple += triple(t)
    sums.cubic += cubic(t)
    sums.longest = Math.max(sums.longest, t)
  }
  return sums
}

/** Pairs equal in x and in y, in lists sorted by x and then y. */
function pairsTiedInBoth(xs: Float64Array, ys: Float64Array): number {
  let pairs = 0
  for (let k = 1, alike = 0; k < xs.length; k++) {
    // The run's k-th member is tied with each of those before it.
    alike = at(xs, k) === at(xs, k - 1) && at(ys, k) === at(ys, k - 1) ? alike + 1 : 0
    pairs += alike
  }
  return pairs
}

/** Variance of S under no association, with ties in x and in y (Kendall 1976, section 4.9). */
function variance(n: number, tiesX: TieSums, tiesY: TieSums): number {
  let varS = (cubic(n) - tiesX.cubic - tiesY.cubic) / 18
  if (n > 2) varS += (tiesX.triple * tiesY.triple) / (9 * triple(n))
  if (n > 1) varS += (tiesX.double * tiesY.double) / (2 * double(n))
  // A constant list has no variance; rounding must not leave a crumb of it, or a sign.
  const constant = tiesX.longest === n || tiesY.longest === n
  return constant ? 0 : Math.max(0, varS)
}
