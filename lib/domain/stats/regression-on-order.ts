import type { AllNonDetect, Censored } from './censored'
import { weightedLeastSquares } from './least-squares'
import { median } from './quantile'
import { at, requireFinite, type TooFew } from './shape'
import { normalQuantile } from './special'

/** Under this many detected values a line through them says little. */
const DETECTED_MIN = 3

export type OrderSummary = { kind: 'summary'; mean: number; sd: number; median: number; nonDetects: number }

/**
 * Mean, standard deviation and median with non-detects filled in, all together, from a lognormal line
 * through the detected values: robust regression on order statistics.
 *
 * Shape   values above 0 in any unit, any order; a non-detect carries its limit as `value`.
 * Answer  'too-few' under three different detected values; 'all-non-detect'. The values filled in are for
 *         the summary only: none of them belongs to any one sample, so they are not given out.
 * Throws  RangeError on a value that is not finite or not above 0.
 * Source  Helsel & Cohn 1988, Water Resour. Res. 24:1997-2004; Helsel 2012, ch. 6.
 */
export function regressionOnOrder(values: readonly Censored[]): OrderSummary | AllNonDetect | TooFew {
  const plain = values.map((v) => v.value)
  requireFinite('the values', plain)
  for (const value of plain) if (value <= 0) throw new RangeError(`a lognormal value is never ${value}`)
  const detected = values.filter((v) => !v.nonDetect).map((v) => v.value)
  if (detected.length === 0 && values.length > 0) return { kind: 'all-non-detect', n: values.length }
  const have = new Set(detected).size
  if (have < DETECTED_MIN) return { kind: 'too-few', have, need: DETECTED_MIN }
  const { seen, unseen } = plottingPositions(values)
  const line = weightedLeastSquares(
    seen.map(({ p }) => [1, normalQuantile(p)]),
    seen.map(({ value }) => Math.log(value)),
    seen.map(() => 1),
  )
  if (line.kind === 'singular') return { kind: 'too-few', have, need: DETECTED_MIN }
  const filled = unseen.map((p) =>
    Math.exp(at(line.coefficients, 0) + at(line.coefficients, 1) * normalQuantile(p)),
  )
  const all = [...detected, ...filled]
  const mean = all.reduce((sum, v) => sum + v, 0) / all.length
  const sd = Math.sqrt(all.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (all.length - 1))
  return { kind: 'summary', mean, sd, median: median(all), nonDetects: unseen.length }
}

/** Where each value stands between 0 and 1, each limit splitting the scale (Helsel & Cohn 1988). */
function plottingPositions(values: readonly Censored[]): {
  seen: { value: number; p: number }[]
  unseen: number[]
} {
  const limits = [...new Set(values.filter((v) => v.nonDetect).map((v) => v.value))].sort((a, b) => a - b)
  const seen: { value: number; p: number }[] = []
  const unseen: number[] = []
  let over = 0
  // From the highest limit down, and last what lies under the lowest.
  for (let j = limits.length - 1; j >= -1; j--) {
    const low = limits[j] ?? 0
    const high = limits[j + 1] ?? Infinity
    const here = values
      .filter((v) => !v.nonDetect && v.value >= low && v.value < high)
      .map((v) => v.value)
      .sort((a, b) => a - b)
    const under = values.filter((v) => (v.nonDetect ? v.value <= low : v.value < low)).length
    const reach = j < 0 ? 1 : over + share(here.length, here.length + under) * (1 - over)
    here.forEach((value, i) => {
      seen.push({ value, p: 1 - reach + ((reach - over) * (i + 1)) / (here.length + 1) })
    })
    const open = values.filter((v) => v.nonDetect && v.value === low).length
    for (let i = 1; i <= open; i++) unseen.push(((1 - reach) * i) / (open + 1))
    over = reach
  }
  return { seen, unseen }
}

const share = (part: number, whole: number) => (whole === 0 ? 0 : part / whole)
