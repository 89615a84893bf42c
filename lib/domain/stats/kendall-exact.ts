import { at } from './shape'

/**
 * Chance that Kendall's S of n untied pairs is at least s when every order is equally likely.
 *
 * Shape   n from 1 to 170 (n! is then still a number); s any number.
 * Throws  RangeError on another n, or s that is NaN.
 * Source  the number of orders of n with k inversions, by the recurrence of Kendall 1938, Biometrika
 *         30:81-93; S = n(n-1)/2 - 2k.
 */
export function exactKendallUpperTail(n: number, s: number): number {
  if (!Number.isInteger(n) || n < 1 || n > 170) throw new RangeError(`no exact distribution for n = ${n}`)
  if (Number.isNaN(s)) throw new RangeError('S is never NaN')
  const pairs = (n * (n - 1)) / 2
  return shareByInversions(n).reduce((sum, share, k) => (pairs - 2 * k >= s ? sum + share : sum), 0)
}

/** Share of the orders of n that have k inversions, k = 0 .. n(n-1)/2: the next value adds 0 to m - 1. */
function shareByInversions(n: number): number[] {
  let shares = [1]
  for (let m = 2; m <= n; m++) {
    const next = new Array<number>(shares.length + m - 1).fill(0)
    shares.forEach((share, k) => {
      for (let added = 0; added < m; added++) next[k + added] = at(next, k + added) + share / m
    })
    shares = next
  }
  return shares
}
