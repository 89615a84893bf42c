import jstat from 'jstat'
import { requireShare } from './shape'

/**
 * Chance that a standard normal variable is at most z.
 * Throws  RangeError on NaN.
 * Source  jstat up to |z| = 4; beyond it the tail of `normalUpper`.
 */
export function normalCdf(z: number): number {
  return z > 0 ? 1 - normalUpper(z) : normalUpper(-z)
}

/**
 * Chance that a standard normal variable exceeds z, with its digits kept far out in the tail.
 *
 * Why     1 - cdf has no digits left past z = 8; monthly records of decades reach z = 13.
 * Throws  RangeError on NaN.
 * Source  jstat below z = 4; beyond, the continued fraction 26.2.14 of Abramowitz & Stegun 1964.
 */
export function normalUpper(z: number): number {
  if (Number.isNaN(z)) throw new RangeError('the normal distribution has no value at NaN')
  if (z < 4) return 1 - jstat.normal.cdf(z, 0, 1)
  const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)
  if (density === 0) return 0
  let fraction = z
  for (let k = 60; k >= 1; k--) fraction = z + k / fraction
  return density / fraction
}

/** Two-sided p of a standard normal statistic: the chance of one at least as far from 0 as z. */
export function normalTwoSidedP(z: number): number {
  return Math.min(1, 2 * normalUpper(Math.abs(z)))
}

/** The z that a standard normal variable stays under with chance p, 0 < p < 1. RangeError otherwise. */
export function normalQuantile(p: number): number {
  requireShare('a chance', p)
  return jstat.normal.inv(p, 0, 1)
}

/** Chance that Student's t with `df` > 0 degrees of freedom is at most t. RangeError on other df or NaN. */
export function tCdf(t: number, df: number): number {
  requireDegrees(df)
  if (Number.isNaN(t)) throw new RangeError('the t distribution has no value at NaN')
  return jstat.studentt.cdf(t, df)
}

/** The t that Student's t with `df` > 0 stays under with chance p, 0 < p < 1. RangeError otherwise. */
export function tQuantile(p: number, df: number): number {
  requireShare('a chance', p)
  requireDegrees(df)
  return jstat.studentt.inv(p, df)
}

/** Chance that chi-square with `df` > 0 exceeds x >= 0. RangeError otherwise. */
export function chiSquareUpper(x: number, df: number): number {
  requireDegrees(df)
  if (!(x >= 0)) throw new RangeError(`chi-square is never ${x}`)
  return Math.max(0, 1 - jstat.chisquare.cdf(x, df))
}

function requireDegrees(df: number): void {
  if (!(df > 0)) throw new RangeError(`degrees of freedom must be above 0, not ${df}`)
}
