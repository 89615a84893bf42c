/**
 * The verdict on a sample: meets, exceeds, inconclusive or not tested, by analyte and as a whole, never "safe".
 * "Meets" needs at least bacteria and nitrate tested and clear, everything that was asked for reported, nothing late, warm,
 * unread or in question.
 */
import { analyteName, findAnalyte } from './analytes'
import { judgeCombination } from './combine'
import type { LabHolding } from './holding'
import { dayOfMoment } from './moment'
import { isAfterTreatment } from './point'
import { rangeOf } from './result-range'
import {
  type AppliedLimit,
  combinationsOn,
  hasLimit,
  type LocalLimit,
  limitsAfter,
  limitsOn,
  type SchemeId,
  schemeTitle,
} from './schemes'
import type { Result, Sample, VerdictWord } from './types'
import { judgeResult } from './verdict-result'
import { type Finding, RANK, type SampleVerdict, showLimit, shownMeasure, worseWord } from './verdict-types'

export type JudgeOptions = {
  scheme: SchemeId
  /** Limits typed in by the installer: they win. */
  local: readonly LocalLimit[]
  /** Holding hours by analyte id, from the laboratory. */
  labHolding: LabHolding
}

/** Judges one sample by a scheme, with the edition and the limits in force on its day. */
export function judgeSample(sample: Sample, options: JudgeOptions): SampleVerdict {
  const asOf = dayOfMoment(sample.sampledAt)
  const judged = judgedFindings(sample, options)
  const missing = missingFindings(sample, judged, options)
  const findings = [...judged, ...missing]
  return {
    sampleId: sample.id,
    verdict: wordOf(findings, sample),
    scheme: options.scheme,
    edition: schemeTitle(options.scheme).edition,
    asOf,
    findings,
    afterTreatment: isAfterTreatment(sample.point),
    notTested: [...new Set(findings.filter(isGap).map((each) => each.name))],
  }
}

/** The findings of what is on the sheet: each analyte by each of its limits, then the sum rules. */
export function judgedFindings(sample: Sample, options: JudgeOptions): Finding[] {
  const ids = [...new Set(sample.results.map((result) => result.analyte))]
  const on = dayOfMoment(sample.sampledAt)
  const sums = combinationsOn(options.scheme, on)
    .map((row) => judgeCombination(row, sample.results, sample, options.labHolding))
    .filter((finding) => finding !== null)
  return [
    ...ids.flatMap((id) => analyteFindings(id, sample, options)),
    ...impliedColi(sample, options),
    ...sums,
  ]
}

/**
 * In a scheme with a limit for E. coli and none for total coliform: E. coli is one of the coliforms, so none of them is none
 * of it, and coliforms found without an E. coli test leave it open.
 */
function impliedColi(sample: Sample, options: JudgeOptions): Finding[] {
  const on = dayOfMoment(sample.sampledAt)
  const total = sample.results.filter(
    (result) => result.analyte === 'total-coliform' && result.operator !== 'none',
  )
  const tested = sample.results.some((result) => result.analyte === 'e-coli' && result.operator !== 'none')
  if (tested || total.length === 0 || hasLimit(options.scheme, 'total-coliform', on)) return []
  return limitsOn(options.scheme, 'e-coli', on, options.local).map((limit) => {
    const judged = worst(total.map((result) => finding(result, limit, sample, options)))
    const found = judged.verdict === 'exceeds'
    return {
      ...judged,
      analyte: 'e-coli',
      name: analyteName('e-coli'),
      verdict: found ? ('inconclusive' as const) : judged.verdict,
      reason: found ? ('not-asked' as const) : judged.reason,
      why: found
        ? 'coliforms were found and E. coli, one of them, was not tested'
        : `${judged.why} (judged by total coliform)`,
    }
  })
}

function analyteFindings(id: string, sample: Sample, options: JudgeOptions): Finding[] {
  const results = sample.results.filter((result) => result.analyte === id)
  const limits = limitsOn(options.scheme, id, dayOfMoment(sample.sampledAt), options.local)
  if (limits.length === 0) return results.slice(0, 1).map((result) => noLimit(id, result))
  return limits.map((limit) => worst(results.map((result) => finding(result, limit, sample, options))))
}

function finding(result: Result, limit: AppliedLimit, sample: Sample, options: JudgeOptions): Finding {
  const judgment = judgeResult(result, limit, sample, options.labHolding)
  const range = rangeOf(result)
  return {
    analyte: result.analyte,
    name: analyteName(result.analyte),
    ...judgment,
    cautions: [...judgment.cautions, ...statusWords(limit), ...looserWords(limit, sample, options)],
    decides: limit.decides,
    limit: showLimit(limit),
    measured: shownMeasure(result, range.low, range.high),
    later:
      limit.decides && judgment.verdict !== 'exceeds'
        ? laterLimit(range.high, result.analyte, sample, options.scheme)
        : null,
  }
}

/** A rule that is proposed, under revision or on its way out says so beside every verdict it gives. */
function statusWords({ row }: AppliedLimit): string[] {
  return row.status === undefined ? [] : [`the limit of ${row.max} ${row.unit}: ${row.status}`]
}

/** A limit of the outfit's own that allows more than the published one says so beside every verdict it gives. */
function looserWords(limit: AppliedLimit, sample: Sample, options: JudgeOptions): string[] {
  if (!limit.local) return []
  const on = dayOfMoment(sample.sampledAt)
  return limitsOn(options.scheme, limit.row.analyte, on, [])
    .filter((each) => each.decides === limit.decides && each.maxHome < limit.maxHome)
    .map(
      ({ row }) =>
        `the limit of the outfit’s own allows more than the published limit of ${row.max} ${row.unit} (${row.source})`,
    )
}

/** A stricter limit of the scheme that comes later and that this result would not be known to meet. */
function laterLimit(high: number, id: string, sample: Sample, scheme: SchemeId): Finding['later'] {
  const next = limitsAfter(scheme, id, dayOfMoment(sample.sampledAt)).find(
    (limit) => limit.decides && high > limit.maxHome,
  )
  return next?.row.from === undefined ? null : { from: next.row.from, max: next.row.max, unit: next.row.unit }
}

/** Of several results of one analyte (a duplicate, a second fraction) the worst counts. */
function worst(findings: readonly Finding[]): Finding {
  const [first, ...rest] = findings
  if (!first) throw new Error('a verdict was asked for without a result')
  return rest.reduce((a, b) => (rank(b) > rank(a) ? b : a), first)
}

const rank = (each: Finding): number => (each.verdict === 'no-limit' ? -1 : RANK[each.verdict])

function noLimit(id: string, result: Result): Finding {
  const range = rangeOf(result)
  return {
    analyte: id,
    name: analyteName(id),
    verdict: 'no-limit',
    reason: 'no-limit',
    why: 'this scheme has no value for it',
    decides: false,
    limit: null,
    measured: shownMeasure(result, range.low, range.high),
    cautions: [],
    later: null,
  }
}

/** What "meets" needs and the sheet does not have: bacteria, nitrate, what was asked, rows that could not be read. */
function missingFindings(sample: Sample, judged: readonly Finding[], options: JudgeOptions): Finding[] {
  const tested = new Set(
    sample.results.filter((result) => result.operator !== 'none').map((result) => result.analyte),
  )
  const asked = sample.asked
    .filter((id) => !tested.has(id))
    .map((id) => missing(id, analyteName(id), 'not-asked', 'asked for, and no result is on the sheet'))
  const unread = sample.unread.map(({ text, why }) => missing(text, text, 'unread', `not read: ${why}`))
  return [...asked, ...unread, ...requiredMissing(judged, options, dayOfMoment(sample.sampledAt))]
}

/** A finding that stands for a test that is missing; a sum with a missing part is not one. */
export function isGap(finding: Finding): boolean {
  return finding.verdict === 'not-tested' && finding.decides && finding.reason !== 'part-missing'
}

/** The two tests without which no water is said to meet anything: bacteria and nitrate. */
export function requiredMissing(judged: readonly Finding[], options: JudgeOptions, on: string): Finding[] {
  const gaps: Finding[] = []
  if (!bacteriaCovered(judged, options.scheme, on))
    gaps.push(
      missing(
        'total-coliform',
        bacteriaName(judged),
        'not-asked',
        'bacteria must be tested before water is said to meet a scheme',
      ),
    )
  if (
    !judged.some(
      (each) =>
        (each.analyte === 'nitrate' || each.analyte === 'nitrate-nitrite') &&
        each.decides &&
        each.verdict !== 'not-tested',
    )
  )
    gaps.push(
      missing(
        'nitrate',
        'Nitrate',
        'not-asked',
        'nitrate must be tested before water is said to meet a scheme',
      ),
    )
  return gaps
}

/**
 * Total coliform covers E. coli (one of them): where it is absent both are. E. coli alone does not cover total coliform in a
 * scheme that has a limit for it. Total coliform found, in a scheme without a limit for it, still needs E. coli.
 */
function bacteriaCovered(judged: readonly Finding[], scheme: SchemeId, on: string): boolean {
  const of = (id: string): Finding | undefined =>
    judged.find((each) => each.analyte === id && each.verdict !== 'not-tested')
  const total = of('total-coliform')
  const coli = of('e-coli')
  if (hasLimit(scheme, 'total-coliform', on)) return total !== undefined
  return coli !== undefined
}

function bacteriaName(judged: readonly Finding[]): string {
  return judged.some((each) => each.analyte === 'e-coli')
    ? 'Total coliform'
    : 'Bacteria (total coliform, E. coli)'
}

function missing(id: string, name: string, reason: 'not-asked' | 'unread', why: string): Finding {
  return {
    analyte: id,
    name,
    verdict: 'not-tested',
    reason,
    why,
    decides: true,
    limit: null,
    measured: null,
    cautions: [],
    later: null,
  }
}

/** The word for the whole: the worst of the findings that decide; sums with a missing part do not hold a sample back. */
export function wordOf(findings: readonly Finding[], sample: { results: readonly Result[] }): VerdictWord {
  if (sample.results.length === 0) return 'not-tested'
  return findings
    .filter((each) => each.decides && each.reason !== 'part-missing')
    .reduce<VerdictWord>(
      (word, each) => (each.verdict === 'no-limit' ? word : worseWord(word, each.verdict)),
      leftOutWord(sample),
    )
}

/** A result left out, or in question, of an analyte without a deciding limit still keeps the sheet from being clean. */
function leftOutWord(sample: { results: readonly Result[] }): VerdictWord {
  return sample.results.some(
    (result) => result.leftOut !== undefined && findAnalyte(result.analyte) !== undefined,
  )
    ? 'inconclusive'
    : 'meets'
}
