import { at, requireShare } from './shape'

/**
 * p-values adjusted for many tests: flagging those at or below q keeps the expected share of false
 * flags among all flags at q, for independent or positively dependent tests.
 *
 * Shape   one p per test, 0..1; answers in the order given; an empty list gives an empty list.
 * Throws  RangeError on a p outside 0..1.
 * Source  Benjamini & Hochberg 1995, J. R. Stat. Soc. B 57:289-300 (step-up). No share of true nulls
 *         is estimated, so the bound holds at its full strictness.
 */
export function benjaminiHochberg(ps: readonly number[]): number[] {
  for (const p of ps) if (!(p >= 0 && p <= 1)) throw new RangeError(`a p-value is never ${p}`)
  const order = ps.map((_, i) => i).sort((a, b) => at(ps, b) - at(ps, a))
  const adjusted = new Array<number>(ps.length).fill(1)
  let least = 1
  order.forEach((i, k) => {
    const rank = ps.length - k
    least = Math.min(least, (at(ps, i) * ps.length) / rank)
    adjusted[i] = least
  })
  return adjusted
}

/** Which tests to flag so that the expected share of false flags stays at or below `share` (0..1). */
export function flagged(ps: readonly number[], share: number): boolean[] {
  requireShare('the share of false alarms', share)
  return benjaminiHochberg(ps).map((p) => p <= share)
}
