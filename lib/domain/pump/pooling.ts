/** A belief that is normal, or near enough: its middle and deviation. */
export type Normal = { mean: number; deviation: number }

/** Earlier parts of a kind that differ are held to differ by the usual as firmly as so many of them would. */
const FIRMNESS = 4

/**
 * What parts followed before teach about the next of their kind: each one's own belief, weighed by how sure it is and by
 * how much they differ among each other, over what is believed at large (random effects).
 *
 * Shape   `usualBetween` is the deviation between parts of one well before they say so themselves.
 */
export function pooled(open: Normal, seen: readonly Normal[], usualBetween: number): Normal {
  if (seen.length === 0) return open
  const middle = seen.reduce((sum, s) => sum + s.mean, 0) / seen.length
  const squares = seen.reduce((sum, s) => sum + (s.mean - middle) ** 2, 0)
  const between2 = (FIRMNESS * usualBetween ** 2 + squares) / (FIRMNESS + seen.length - 1)
  let precision = 1 / open.deviation ** 2
  let weighted = open.mean * precision
  for (const s of seen) {
    const weight = 1 / (s.deviation ** 2 + between2)
    precision += weight
    weighted += weight * s.mean
  }
  return { mean: weighted / precision, deviation: Math.sqrt(1 / precision + between2) }
}

/** Of the belief in shares so much stays with parts at large, whatever the earlier ones of this well say. */
const AT_LARGE = 0.25
/** Parts of one well are alike and not the same: the word of each counts for so much of what it would if they were. */
const ALIKE = 0.8
/** No part rules anything out for the next. */
const LEAST_FACTOR = 1e-3

/**
 * Shares of several possibilities (laws, drifts, kinds of wear) after the parts followed before: what each one's readings
 * say for a share multiplies it.
 */
export function pooledShares(open: readonly number[], seen: readonly (readonly number[])[]): number[] {
  const factorOf = (share: number, after: number) => Math.max(LEAST_FACTOR, after / share) ** ALIKE
  const raw = open.map((share, k) => seen.reduce((all, s) => all * factorOf(share, s[k] ?? 0), share))
  const total = raw.reduce((sum, one) => sum + one, 0)
  return open.map((share, k) => AT_LARGE * share + ((1 - AT_LARGE) * (raw[k] ?? 0)) / total)
}

/** How a belief lies on a grid of logarithms: its weight over that of the likeliest cell, its middle and variance. */
export function onGrid(
  cells: readonly { gridLog: number; logWeight: number }[],
  top: number,
): { total: number; mean: number; variance: number } {
  let [total, first, second] = [0, 0, 0]
  for (const { gridLog, logWeight } of cells) {
    const weight = Math.exp(logWeight - top)
    total += weight
    first += weight * gridLog
    second += weight * gridLog * gridLog
  }
  const mean = first / total
  return { total, mean, variance: Math.max(0, second / total - mean * mean) }
}
