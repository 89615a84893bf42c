/** What a result says about the water, as bounds: a non-detect is "between zero and its limit", never zero, never half. */
import { findAnalyte } from './analytes'
import type { Result } from './types'

/** Bounds of the true amount in the home unit. `found`: the substance or organism was detected. `high` may be Infinity. */
export type AmountRange = { low: number; high: number; found: boolean }

/** The bounds of a result. A result without any reading ('none') is everything from zero to infinity, not found. */
export function rangeOf(result: Result): AmountRange {
  const factors = result.formFactors ?? [1]
  const range = plainRange(result)
  return { ...range, low: range.low * Math.min(...factors), high: range.high * Math.max(...factors) }
}

function plainRange(result: Result): AmountRange {
  const value = result.value
  const limit = result.reportingLimit
  switch (result.operator) {
    case '=':
      return value === null ? nothingKnown() : { low: value, high: value, found: value > 0 }
    case '<':
      return value === null ? nothingKnown() : { low: 0, high: Math.max(value, limit ?? 0), found: false }
    case '>':
      return { low: value ?? 0, high: Number.POSITIVE_INFINITY, found: true }
    case 'present':
      return { low: 0, high: Number.POSITIVE_INFINITY, found: true }
    case 'trace':
      return { low: 0, high: limit ?? Number.POSITIVE_INFINITY, found: true }
    case 'absent':
      return { low: 0, high: 0, found: false }
    case 'not-detected':
      return notDetected(result)
    case 'none':
      return nothingKnown()
  }
}

/** "Not detected" in a bacteria test of 100 mL means none in 100 mL; for a substance it means nothing without the limit. */
function notDetected(result: Result): AmountRange {
  const isCount = findAnalyte(result.analyte)?.home === 'per 100 mL'
  const high = result.reportingLimit ?? (isCount ? 0 : Number.POSITIVE_INFINITY)
  return { low: 0, high, found: false }
}

function nothingKnown(): AmountRange {
  return { low: 0, high: Number.POSITIVE_INFINITY, found: false }
}
