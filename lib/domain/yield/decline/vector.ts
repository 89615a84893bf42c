/** Small dense vectors. Lengths are the caller's to match: these run in the inner loops of every appraisal. */
export type Vector = Float64Array

/** Sum of products. */
export function dot(a: Vector, b: Vector): number {
  let sum = 0
  for (let i = 0; i < a.length; i++) sum += (a[i] ?? 0) * (b[i] ?? 0)
  return sum
}

/** a + factor × b, into a new vector. */
export function plus(a: Vector, factor: number, b: Vector): Vector {
  const out = new Float64Array(a.length)
  for (let i = 0; i < a.length; i++) out[i] = (a[i] ?? 0) + factor * (b[i] ?? 0)
  return out
}

/** A vector from a function of the position. */
export function vectorOf(length: number, value: (i: number) => number): Vector {
  const out = new Float64Array(length)
  for (let i = 0; i < length; i++) out[i] = value(i)
  return out
}

/** The middle value (mean of the middle two); null of an empty list. */
export function medianOf(values: readonly number[]): number | null {
  if (values.length === 0) return null
  const sorted = Float64Array.from(values).sort()
  const middle = sorted.length >> 1
  const high = sorted[middle] ?? 0
  return sorted.length % 2 === 1 ? high : (high + (sorted[middle - 1] ?? 0)) / 2
}

/** log(sum(exp(x))) without overflow; minus infinity of an empty list. */
export function logSumExp(values: readonly number[]): number {
  let top = Number.NEGATIVE_INFINITY
  for (const value of values) if (value > top) top = value
  if (top === Number.NEGATIVE_INFINITY) return top
  let sum = 0
  for (const value of values) sum += Math.exp(value - top)
  return top + Math.log(sum)
}

/**
 * Share of the standard normal below z.
 * Source  Abramowitz & Stegun 1964, 26.2.17 (error under 7.5e-8): quick, and fine for weights.
 */
export function normalBelow(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z))
  const series =
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))))
  const tail = 0.3989422804014327 * Math.exp((-z * z) / 2) * series
  return z >= 0 ? 1 - tail : tail
}
