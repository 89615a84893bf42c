/** Sum rules: nitrate with nitrite, WHO and EU ratios, iron with manganese, the PFAS index. */

import { analyteName } from './analytes'
import type { LabHolding } from './holding'
import { type AmountRange, rangeOf } from './result-range'
import type { CombinationRow, Result, Sample, VerdictWord } from './types'
import { limitInHome, tidyNumber } from './units'
import { isSound } from './verdict-result'
import { type Finding, type ReasonCode, showCombination } from './verdict-types'

type Part = { analyte: string; ranges: AmountRange | null; sound: boolean }

/**
 * Judges one sum rule over a sample. With no part tested the answer is null (nothing to say); with a part missing it is
 * 'not-tested', unless the parts at hand exceed already. A late or questioned part can exceed, never meet.
 */
export function judgeCombination(
  row: CombinationRow,
  results: readonly Result[],
  sample: Sample,
  lab: LabHolding,
): Finding | null {
  const parts = row.parts.map((part) => partOf(part, results, sample, lab))
  const tested = parts.filter((part) => part.ranges !== null)
  if (tested.length === 0) return null
  const low = tidyNumber(tested.reduce((sum, part) => sum + (part.ranges?.low ?? 0), 0))
  const high = tidyNumber(tested.reduce((sum, part) => sum + (part.ranges?.high ?? 0), 0))
  const missing = parts.filter((part) => part.ranges === null).map((part) => analyteName(part.analyte))
  const found = tested.filter((part) => part.ranges?.found).length
  const said = word({
    row,
    low,
    high,
    missing,
    found,
    tested: tested.length,
    sound: tested.every((part) => part.sound),
  })
  return {
    analyte: row.id,
    name: row.name,
    ...said,
    decides: row.kind === 'health' || row.kind === 'action',
    limit: showCombination(row),
    measured: { low, high: Number.isFinite(high) ? high : null, unit: row.unit, typed: '' },
    cautions: [],
    later: null,
  }
}

function partOf(
  part: CombinationRow['parts'][number],
  results: readonly Result[],
  sample: Sample,
  lab: LabHolding,
): Part {
  const own = results.filter(
    (result) => result.analyte === part.analyte && result.operator !== 'none' && result.leftOut === undefined,
  )
  if (own.length === 0) return { analyte: part.analyte, ranges: null, sound: false }
  const divisor = limitInHome(part.analyte, part.divisor, part.unit)
  const ranges = own.map(rangeOf)
  return {
    analyte: part.analyte,
    ranges: {
      low: Math.max(...ranges.map((range) => range.low)) / divisor,
      high: Math.max(...ranges.map((range) => range.high)) / divisor,
      found: ranges.some((range) => range.found),
    },
    sound: own.every((result) => isSound(result, sample, lab)),
  }
}

type Sums = {
  row: CombinationRow
  low: number
  high: number
  missing: readonly string[]
  found: number
  tested: number
  sound: boolean
}

function word(sums: Sums): { verdict: VerdictWord; reason: ReasonCode; why: string } {
  const { row, low, high, missing, found, sound } = sums
  const bound = row.unit === 'unitless' ? String(row.max) : `${row.max} ${row.unit}`
  const need = row.mixtureOf ?? 1
  if (low > row.max && found >= need)
    return { verdict: 'exceeds', reason: 'above', why: `the sum is above ${bound}` }
  if (missing.length > 0)
    return { verdict: 'not-tested', reason: 'part-missing', why: `not tested: ${missing.join(', ')}` }
  if (high > row.max && found < need && low > row.max)
    return {
      verdict: 'inconclusive',
      reason: 'mixture-unsure',
      why: 'the rule is about mixtures, and only one part was found',
    }
  if (high > row.max)
    return {
      verdict: 'inconclusive',
      reason: 'reporting-limit-above-limit',
      why: `with what the tests could not see the sum may be above ${bound}`,
    }
  if (!sound)
    return {
      verdict: 'inconclusive',
      reason: 'suspect',
      why: 'a part of the sum is late, warm, suspect or has an open question',
    }
  return { verdict: 'meets', reason: 'at-or-below', why: `the sum is at or below ${bound}` }
}
