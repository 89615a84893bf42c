import type { AllNonDetect, Censored } from './censored'
import { requireFinite, type TooFew } from './shape'

/** A quantile, or that it lies under the smallest value detected. */
export type CensoredQuantile = { kind: 'value'; value: number } | { kind: 'below'; value: number }

export type KaplanMeier = {
  kind: 'distribution'
  n: number
  nonDetects: number
  /** Values detected, smallest first, each with the share of the distribution at it. */
  steps: { value: number; share: number }[]
  /** Share that lies under the smallest value detected, somewhere: no more is known. */
  shareBelow: number
  /** The mean with that share put at the smallest value detected, and put at the lowest limit (Efron). */
  meanAtSmallestDetected: number
  meanAtLowestLimit: number
}

/**
 * Kaplan-Meier distribution of values with non-detects at any number of limits.
 *
 * Shape   values in any order; a non-detect carries its limit as `value`. Any unit.
 * Answer  'too-few' under three values; 'all-non-detect' where none was detected. Both means are told, as
 *         they bracket nothing and differ: say which one is shown.
 * Throws  RangeError on a value that is not finite.
 * Source  Kaplan & Meier 1958 on flipped data; Helsel 2012, Statistics for Censored Environmental Data,
 *         ch. 6; Efron 1967 for the lowest limit.
 */
export function kaplanMeier(values: readonly Censored[]): KaplanMeier | AllNonDetect | TooFew {
  requireFinite(
    'the values',
    values.map((v) => v.value),
  )
  const n = values.length
  if (n < 3) return { kind: 'too-few', have: n, need: 3 }
  const detected = values.filter((v) => !v.nonDetect)
  const limits = values.filter((v) => v.nonDetect).map((v) => v.value)
  const distinct = [...new Set(detected.map((v) => v.value))].sort((a, b) => a - b)
  const [smallest] = distinct
  if (smallest === undefined) return { kind: 'all-non-detect', n }
  let under = 1
  const steps = distinct
    .toReversed()
    .map((value) => {
      // A non-detect with its limit at the value lies below it, so it is still among those at risk.
      const atRisk = values.filter((v) => v.value <= value).length
      const here = detected.filter((v) => v.value === value).length
      const share = (under * here) / atRisk
      under = here === atRisk ? 0 : under - share
      return { value, share }
    })
    .reverse()
  const sum = steps.reduce((total, { value, share }) => total + value * share, 0)
  return {
    kind: 'distribution',
    n,
    nonDetects: limits.length,
    steps,
    shareBelow: under,
    meanAtSmallestDetected: sum + under * smallest,
    meanAtLowestLimit: sum + (under === 0 ? 0 : under * Math.min(...limits)),
  }
}

/**
 * Quantile of a Kaplan-Meier distribution: the smallest value with at least the share p at or below it,
 * the mean with the next where the share is met exactly. 'below' where it lies under the smallest
 * value detected, given as `value`.
 * Throws  RangeError unless 0 < p < 1.
 */
export function kaplanMeierQuantile({ steps, shareBelow }: KaplanMeier, p: number): CensoredQuantile {
  if (!(p > 0 && p < 1)) throw new RangeError(`a quantile needs a share between 0 and 1, not ${p}`)
  let upTo = shareBelow
  const hair = 1e-12
  const [first] = steps
  if (first && upTo > p + hair) return { kind: 'below', value: first.value }
  for (const [i, { value, share }] of steps.entries()) {
    upTo += share
    const next = steps[i + 1]
    if (next && Math.abs(upTo - p) <= hair) return { kind: 'value', value: (value + next.value) / 2 }
    if (upTo > p || !next) return { kind: 'value', value }
  }
  throw new RangeError('a distribution without steps has no quantile')
}
