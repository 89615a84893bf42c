/** One result against one limit. */
import { holdState, type LabHolding, warmth } from './holding'
import { isAfterTreatment } from './point'
import { type AmountRange, rangeOf } from './result-range'
import type { AppliedLimit } from './schemes'
import type { Result, Sample, VerdictWord } from './types'
import type { ReasonCode } from './verdict-types'

/** The word, the reason and one sentence; with what has to be said beside it. */
export type Judgment = { verdict: VerdictWord; reason: ReasonCode; why: string; cautions: readonly string[] }

/**
 * The largest detection limit at which a bacteria test still covers the 100 mL that a limit of zero is about: "<1" (one bottle
 * of 100 mL) and "<1.1" (ten tubes of 10 mL, Standard Methods table 9221:II).
 */
const ZERO_LIMIT_REACH = 1.1

/**
 * Judges a result by a limit. At the limit is "meets". A non-detect meets only if its reporting limit is at or below the limit.
 * A late, warm, suspect or questioned result can still exceed, but never meets. A rejected or left-out result says nothing.
 * Lowering a value, or lowering a reporting limit, never makes the word worse (a minimum, as for pH, aside).
 */
export function judgeResult(result: Result, limit: AppliedLimit, sample: Sample, lab: LabHolding): Judgment {
  const useless = cannotUse(result)
  if (useless) return useless
  const range = rangeOf(result)
  const plain = limit.maxHome === 0 ? againstZero(range, result) : againstNumber(range, limit, result)
  const doubts = doubtsOf(result, sample, lab)
  const cautions = cautionsOf(result, sample, lab)
  if (plain.verdict !== 'meets')
    return { ...plain, cautions: [...doubts.map((doubt) => doubt.why), ...cautions] }
  const worst = doubts[0]
  if (!worst) return { ...plain, cautions }
  return {
    verdict: 'inconclusive',
    reason: worst.reason,
    why: worst.why,
    cautions: [...doubts.slice(1).map((doubt) => doubt.why), ...cautions],
  }
}

/** Whether nothing but the number itself stands against a result: judged against a limit that every number meets. */
export function isSound(result: Result, sample: Sample, lab: LabHolding): boolean {
  const open = {
    row: { analyte: result.analyte, kind: 'health', max: 0, unit: '', source: '', date: '', seen: 'seen' },
    maxHome: Number.POSITIVE_INFINITY,
    minHome: null,
    decides: true,
    local: false,
  } as const
  return judgeResult(result, open, sample, lab).verdict === 'meets'
}

function cannotUse(result: Result): Judgment | null {
  if (result.leftOut !== undefined)
    return { verdict: 'inconclusive', reason: 'left-out', why: `left out: ${result.leftOut}`, cautions: [] }
  if (result.operator === 'none')
    return {
      verdict: 'not-tested',
      reason: 'no-result',
      why: `the sheet gives no result ("${result.typed.result.trim()}")`,
      cautions: [],
    }
  if (result.qualifiers.some((each) => each.class === 'rejected'))
    return {
      verdict: 'inconclusive',
      reason: 'rejected',
      why: 'the laboratory rejected this result',
      cautions: [],
    }
  return null
}

type Plain = Pick<Judgment, 'verdict' | 'reason' | 'why'>

/** A limit of zero in 100 mL: any detection exceeds; none found meets, if the test looked at enough water. */
function againstZero(range: AmountRange, result: Result): Plain {
  if (range.found) return { verdict: 'exceeds', reason: 'found', why: foundWords(result) }
  if (range.high <= ZERO_LIMIT_REACH)
    return { verdict: 'meets', reason: 'not-found', why: 'none found in 100 mL' }
  return {
    verdict: 'inconclusive',
    reason: 'reporting-limit-above-limit',
    why: `the test could not see fewer than ${range.high} in 100 mL; none is allowed`,
  }
}

function foundWords(result: Result): string {
  if (result.operator === 'present') return 'found (no count); none is allowed'
  if (result.operator === '>') return `more than ${result.value ?? 0} in 100 mL; none is allowed`
  return result.value === null
    ? 'found, not counted; none is allowed'
    : `${result.value} in 100 mL; none is allowed`
}

function againstNumber(range: AmountRange, limit: AppliedLimit, result: Result): Plain {
  const bound = `${limit.row.max} ${limit.row.unit}`
  if (range.low > limit.maxHome)
    return { verdict: 'exceeds', reason: 'above', why: `above the limit of ${bound}` }
  if (limit.minHome !== null && range.high < limit.minHome)
    return {
      verdict: 'exceeds',
      reason: 'below-minimum',
      why: `below the least of ${limit.row.min ?? limit.minHome} ${limit.row.unit}`,
    }
  if (range.high <= limit.maxHome && (limit.minHome === null || range.low >= limit.minHome))
    return {
      verdict: 'meets',
      reason: 'at-or-below',
      why: limit.minHome === null ? `at or below the limit of ${bound}` : 'inside the range',
    }
  return { verdict: 'inconclusive', ...unsure(result, bound) }
}

function unsure(result: Result, bound: string): Pick<Plain, 'reason' | 'why'> {
  if (result.formFactors !== null)
    return {
      reason: 'form-not-said',
      why: `the sheet does not say in which form it is given; it matters against ${bound}`,
    }
  if (result.operator === 'present')
    return { reason: 'presence-without-count', why: `found, but not counted; the limit is ${bound}` }
  if (result.operator === '>')
    return {
      reason: 'above-measuring-range',
      why: `above what the test could measure; the limit is ${bound}`,
    }
  if (result.operator === 'trace')
    return { reason: 'trace', why: `found, but not measured; the limit is ${bound}` }
  if (result.reportingLimit === null && result.value === null)
    return {
      reason: 'reporting-limit-unknown',
      why: `not detected, but the sheet does not say how little could be seen; the limit is ${bound}`,
    }
  return {
    reason: 'reporting-limit-above-limit',
    why: `the test could not see as little as the limit of ${bound}`,
  }
}

type Doubt = { reason: ReasonCode; why: string }

/** What stands between a good number and "meets". */
function doubtsOf(result: Result, sample: Sample, lab: LabHolding): Doubt[] {
  const doubts: Doubt[] = []
  const hold = holdState(result.analyte, sample, lab)
  if (hold.kind === 'late') doubts.push({ reason: 'late', why: hold.why })
  const warm = warmth(result.analyte, sample)
  if (warm !== null) doubts.push({ reason: 'warm', why: warm })
  for (const qualifier of result.qualifiers) {
    if (qualifier.class === 'late')
      doubts.push({
        reason: 'late',
        why: `the laboratory marked it "${qualifier.code}": ${qualifier.meaning}`,
      })
    if (qualifier.class === 'warm')
      doubts.push({
        reason: 'warm',
        why: `the laboratory marked it "${qualifier.code}": ${qualifier.meaning}`,
      })
    if (qualifier.class === 'suspect')
      doubts.push({
        reason: 'suspect',
        why: `the laboratory marked it "${qualifier.code}": ${qualifier.meaning}`,
      })
  }
  // The form (as N, as NO3) is in the bounds already: where every form meets, it does not matter which it is.
  for (const question of result.questions)
    if (question.kind !== 'form') doubts.push({ reason: 'open-question', why: question.ask })
  if (sample.unconfirmed === true)
    doubts.push({
      reason: 'unconfirmed',
      why: 'the household sent this sheet in, and the outfit has not looked at it yet',
    })
  return doubts
}

/** What is said beside a verdict and does not change it. */
function cautionsOf(result: Result, sample: Sample, lab: LabHolding): string[] {
  const cautions: string[] = []
  const hold = holdState(result.analyte, sample, lab)
  if (hold.kind === 'cannot-tell' || hold.kind === 'always-late') cautions.push(hold.why)
  for (const qualifier of result.qualifiers)
    if (qualifier.conflict !== null) cautions.push(qualifier.conflict)
  if (sample.chlorinated === true && result.analyte.includes('coli'))
    cautions.push('the water was chlorinated: a clear result says little until the chlorine is gone')
  if (isAfterTreatment(sample.point))
    cautions.push('taken after treatment: it says nothing of the water of the well itself')
  return cautions
}
