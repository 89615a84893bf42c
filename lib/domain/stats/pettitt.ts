import { midRanks } from './memory'
import { requireFinite, type TooFew } from './shape'

/** Under this many values a change point is a guess. */
const PETTITT_N_MIN = 6

export type ChangePoint = {
  kind: 'change-point'
  /** The largest count U of pairs across a split that differ in direction. */
  u: number
  /** How many values stand before the change: the split comes after this many. */
  before: number
  /** Approximate two-sided p of no change: 2 exp(-6 U^2 / (n^3 + n^2)), at most 1. */
  p: number
}

/**
 * Pettitt's test for one change in level at an unknown time.
 *
 * Shape   values in time order. The first of equal splits is told.
 * Answer  'too-few' under six values. All equal: u = 0, p = 1, and `before` says nothing.
 * Throws  RangeError on a value that is not finite.
 * Source  Pettitt 1979, J. R. Stat. Soc. C 28:126-135. Cost n log n.
 */
export function pettitt(values: readonly number[]): ChangePoint | TooFew {
  requireFinite('the series', values)
  const n = values.length
  if (n < PETTITT_N_MIN) return { kind: 'too-few', have: n, need: PETTITT_N_MIN }
  let sum = 0
  let u = 0
  let before = 0
  midRanks(values).forEach((rank, i) => {
    sum += 2 * rank - (n + 1)
    if (Math.abs(sum) > u) {
      u = Math.abs(sum)
      before = i + 1
    }
  })
  return { kind: 'change-point', u, before, p: Math.min(1, 2 * Math.exp((-6 * u * u) / (n ** 3 + n ** 2))) }
}
