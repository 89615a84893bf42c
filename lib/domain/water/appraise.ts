/**
 * Everything reckoned about a well's water: its verdict, its findings, the chain it is in, what comes next, its series. A pure
 * function of samples, events and settings; it holds no clock, so due dates are facts and pages compare them with today.
 */
import { addMonths, type Day } from '@/lib/domain/quantity/day'
import { CHAIN_RULES, type Chain, type ChainRules, chainsOf } from './chain'
import { type Mark, marksOf } from './chain-marks'
import type { WaterEvent } from './events'
import type { LabHolding } from './holding'
import { type InspectionRecord, type SanitaryStanding, sanitaryStanding } from './inspection-record'
import { dayOfMoment } from './moment'
import { isAfterTreatment } from './point'
import { changedSince, PLAN, type SamplingPlan, type TestDuty, testDuties } from './sampling'
import { type LocalLimit, type SchemeId, schemeTitle, schemeWords } from './schemes'
import { type Series, seriesOf } from './series'
import type { Sample, VerdictWord } from './types'
import { isGap, type JudgeOptions, judgeSample, requiredMissing } from './verdict'
import { type Finding, RANK, type SampleVerdict, worseWord } from './verdict-types'

export type WaterSettings = {
  scheme: SchemeId
  local: readonly LocalLimit[]
  /** Holding hours by analyte id, by the laboratory's name. */
  labHolding: Readonly<Record<string, LabHolding>>
  chainRules: ChainRules
  plan: SamplingPlan
  /** How long bacteria and nitrate results speak for a well: a year and three months. House rule, no published source. */
  freshMonths: number
  /** Whether a sheet that a household sent in counts before anybody of the outfit has looked at it. */
  ownerSheetsCount: boolean
}

export const WATER_SETTINGS: WaterSettings = {
  scheme: 'us',
  local: [],
  labHolding: {},
  chainRules: CHAIN_RULES,
  plan: PLAN,
  freshMonths: 15,
  ownerSheetsCount: false,
}

export type DatedFinding = Finding & { sampleId: string; sampledOn: Day }

export type NextStep =
  | { kind: 'chain'; chain: string; step: string; earliest: Day | null; text: string }
  | { kind: 'test'; duty: TestDuty; text: string }
  | { kind: 'answer'; sampleId: string; text: string }
  | { kind: 'repeat'; analyte: string; text: string }

export type WaterStanding = {
  verdict: VerdictWord
  scheme: SchemeId
  schemeName: string
  edition: string
  /** The day of the last sample; null without one. */
  asOf: Day | null
  /** The older of the days of which bacteria and nitrate were last found to meet; null where either was not. */
  restsOn: Day | null
  /** What happened since bacteria or nitrate were last tested, that asks for a new test; null where nothing is known. */
  changed: { on: Day; words: string } | null
  /** The newest finding of each analyte by each of its limits, worst first. */
  findings: readonly DatedFinding[]
  notTested: readonly string[]
  next: readonly NextStep[]
  /** The open chain that matters most (bacteria, then nitrate, then the oldest), or null. */
  chain: Chain | null
  chains: readonly Chain[]
  duties: readonly TestDuty[]
  /** The newest sanitary inspection, read together with E. coli; null where there was none. */
  sanitary: SanitaryStanding | null
  samples: readonly SampleVerdict[]
  /** Reckoned when it is asked for: trends cost more than all the rest. */
  readonly series: readonly Series[]
}

/** What else is known of a well. `newOn`: the day it was built, null where nobody knows. */
export type WaterBackground = { inspections: readonly InspectionRecord[]; newOn: Day | null }

const NOTHING_ELSE: WaterBackground = { inspections: [], newOn: null }

/** Reckons the standing. Samples, events and inspections in any order. */
export function appraiseWater(
  samples: readonly Sample[],
  events: readonly WaterEvent[],
  settings: WaterSettings,
  { inspections, newOn }: WaterBackground = NOTHING_ELSE,
): WaterStanding {
  const sorted = [...samples].sort((a, b) =>
    a.sampledAt < b.sampledAt ? -1 : a.sampledAt > b.sampledAt ? 1 : a.id < b.id ? -1 : 1,
  )
  const judged = sorted.map((sample) => judgedBy(sample, settings))
  const marks = judged.flatMap((each) => each.marks)
  const chains = chainsOf(marks, events, settings.chainRules)
  const open = chains.filter((chain) => chain.closed === null)
  const last = sorted.at(-1)
  const asOf = last ? dayOfMoment(last.sampledAt) : null
  const findings = asOf === null ? [] : currentFindings(judged, asOf, settings)
  const context = { newOn, labHolding: settings.labHolding }
  const duties = testDuties(sorted, events, settings.plan, context)
  let series: Series[] | null = null
  return {
    verdict: asOf === null ? 'not-tested' : standingWord(findings, open),
    scheme: settings.scheme,
    schemeName: schemeWords(settings.scheme, findings),
    edition: schemeTitle(settings.scheme).edition,
    asOf,
    restsOn: restsOn(findings),
    changed: changedSince(sorted, events, context),
    findings,
    notTested: [...new Set(findings.filter(isGap).map((each) => each.name))],
    next: nextSteps(open, findings, duties, samplesSpeaking(sorted, findings)),
    chain: [...open].sort((a, b) => chainRank(a) - chainRank(b))[0] ?? null,
    chains,
    duties,
    sanitary: sanitaryStanding(inspections, sorted),
    samples: judged.map((each) => each.verdict),
    get series() {
      series ??= seriesOf(sorted)
      return series
    },
  }
}

function optionsFor(sample: Sample, settings: WaterSettings): JudgeOptions {
  return { scheme: settings.scheme, local: settings.local, labHolding: settings.labHolding[sample.lab] ?? {} }
}

type Judged = { sample: Sample; verdict: SampleVerdict; marks: readonly Mark[] }

/** Verdicts by sample: a replay asks again for every day, under the same settings. */
const JUDGED = new WeakMap<Sample, { settings: WaterSettings; judged: Judged }>()

function judgedBy(sample: Sample, settings: WaterSettings): Judged {
  const known = JUDGED.get(sample)
  if (known?.settings === settings) return known.judged
  const options = optionsFor(sample, settings)
  const verdict = judgeSample(sample, options)
  const judged = { sample, verdict, marks: marksOf(sample, verdict.findings, options.labHolding) }
  JUDGED.set(sample, { settings, judged })
  return judged
}

/** The newest finding of each analyte and limit; what the last sheet lacks; bacteria and nitrate that are missing or too old. */
function currentFindings(judged: readonly Judged[], asOf: Day, settings: WaterSettings): DatedFinding[] {
  const newest = new Map<string, DatedFinding>()
  for (const { sample, verdict } of judged) {
    const own = verdict.findings.map((finding) => ofTheWell(finding, sample))
    forgetCovered(newest, own)
    for (const finding of own)
      if (finding.limit !== null || finding.verdict === 'no-limit')
        if (finding.verdict !== 'not-tested' || !newest.has(keyOf(finding)))
          newest.set(keyOf(finding), {
            ...finding,
            sampleId: sample.id,
            sampledOn: dayOfMoment(sample.sampledAt),
          })
  }
  const lastJudged = judged.at(-1)
  const at = { sampleId: lastJudged?.sample.id ?? '', sampledOn: asOf }
  const current = [...newest.values()].map((finding) => agedOut(finding, asOf, settings))
  const gaps = (lastJudged?.verdict.findings ?? []).filter(
    (each) => each.reason === 'unread' || (each.reason === 'not-asked' && each.why.startsWith('asked')),
  )
  const options = { scheme: settings.scheme, local: settings.local, labHolding: {} }
  const required = requiredMissing(current, options, asOf)
  return [...current, ...[...gaps, ...required].map((finding) => ({ ...finding, ...at }))].sort(
    (a, b) => rankOf(b) - rankOf(a),
  )
}

/** A clear result of water that was treated, or chlorinated, is none of the well: what was found before stands. */
function ofTheWell(finding: Finding, sample: Sample): Finding {
  if (finding.verdict !== 'meets') return finding
  if (sample.chlorinated === true && ['total-coliform', ...COLIFORMS].includes(finding.analyte))
    return {
      ...finding,
      verdict: 'inconclusive',
      reason: 'chlorinated',
      why: 'chlorine was in the water: that none were found says little of the well',
    }
  if (!isAfterTreatment(sample.point)) return finding
  return {
    ...finding,
    verdict: 'not-tested',
    reason: 'after-treatment',
    why: 'tested after treatment only: that says nothing of the water of the well itself',
  }
}

const COLIFORMS = ['e-coli', 'fecal-coliform']

/** Where no coliform was found there is no E. coli either: an older finding of it no longer holds. */
function forgetCovered(newest: Map<string, DatedFinding>, findings: readonly Finding[]): void {
  const none = findings.some((each) => each.analyte === 'total-coliform' && each.verdict === 'meets')
  if (!none) return
  for (const [key, { analyte }] of newest) if (COLIFORMS.includes(analyte)) newest.delete(key)
}

function keyOf(finding: Finding): string {
  const { limit } = finding
  return [
    finding.analyte,
    limit?.kind ?? '',
    limit?.local ? 'local' : (limit?.source ?? ''),
    limit?.basis ?? '',
  ].join('|')
}

const SPEAKS_FOR_A_TIME = new Set(['total-coliform', 'e-coli', 'nitrate', 'nitrate-nitrite'])

/** A clear bacteria or nitrate result that is too old beside the last sample says nothing any more; an exceedance stays. */
function agedOut(finding: DatedFinding, asOf: Day, settings: WaterSettings): DatedFinding {
  if (finding.verdict !== 'meets' || !SPEAKS_FOR_A_TIME.has(finding.analyte)) return finding
  if (asOf <= addMonths(finding.sampledOn, settings.freshMonths)) return finding
  return {
    ...finding,
    verdict: 'not-tested',
    reason: 'outdated',
    why: `last tested on ${finding.sampledOn}, too long before the last sample`,
  }
}

/** The day to which a standing that meets can be said to reach: bacteria and nitrate both count, the older of them decides. */
function restsOn(findings: readonly DatedFinding[]): Day | null {
  const last = (ids: readonly string[]): Day | undefined =>
    findings
      .filter(({ analyte, verdict }) => verdict === 'meets' && ids.includes(analyte))
      .map(({ sampledOn }) => sampledOn)
      .sort()
      .at(-1)
  const bacteria = last(['total-coliform', 'e-coli'])
  const nitrate = last(['nitrate', 'nitrate-nitrite'])
  if (bacteria === undefined || nitrate === undefined) return null
  return [bacteria, nitrate].sort()[0] ?? null
}

/** The samples that a current finding rests on: questions about older sheets matter no more. */
function samplesSpeaking(samples: readonly Sample[], findings: readonly DatedFinding[]): Sample[] {
  const speaking = new Set(findings.map(({ sampleId }) => sampleId))
  return samples.filter(({ id }) => speaking.has(id))
}

/** The worst that decides; an open chain is never "meets": without a clear sample since its last positive it still exceeds. */
function standingWord(findings: readonly DatedFinding[], open: readonly Chain[]): VerdictWord {
  const byFindings = findings
    .filter((each) => each.decides && each.reason !== 'part-missing')
    .reduce<VerdictWord>(
      (word, each) => (each.verdict === 'no-limit' ? word : worseWord(word, each.verdict)),
      'meets',
    )
  return open.reduce<VerdictWord>(
    (word, chain) => worseWord(word, chain.clear.length > 0 ? 'inconclusive' : 'exceeds'),
    byFindings,
  )
}

function rankOf(finding: Finding): number {
  const word = finding.verdict === 'no-limit' ? -1 : RANK[finding.verdict]
  return word + (finding.decides ? 10 : 0)
}

function chainRank(chain: Chain): number {
  return chain.key === 'bacteria' ? 0 : chain.key === 'nitrate' ? 1 : 2
}

function nextSteps(
  open: readonly Chain[],
  findings: readonly DatedFinding[],
  duties: readonly TestDuty[],
  samples: readonly Sample[],
): NextStep[] {
  const steps: NextStep[] = open.flatMap((chain) =>
    chain.steps
      .filter((step) => step.state === 'next')
      .map((step) => ({
        kind: 'chain' as const,
        chain: chain.key,
        step: step.step,
        earliest: step.earliest,
        text: `${chain.name}: ${step.text}`,
      })),
  )
  const questions: NextStep[] = samples.flatMap((sample) =>
    [
      ...sample.results.flatMap((result) => result.questions.map(({ ask }) => ask)),
      ...sample.unread.map(({ text, why }) => `${text}: ${why}`),
    ].map((text) => ({ kind: 'answer' as const, sampleId: sample.id, text })),
  )
  const inChain = new Set(open.flatMap((chain) => chain.opened.analytes))
  const repeats: NextStep[] = findings
    .filter(
      (each) =>
        each.decides &&
        each.verdict === 'inconclusive' &&
        each.reason !== 'open-question' &&
        !inChain.has(each.analyte),
    )
    .map((each) => ({
      kind: 'repeat' as const,
      analyte: each.analyte,
      text: `Test ${each.name} again: ${each.why}.`,
    }))
  const tests: NextStep[] = duties.map((duty) => ({ kind: 'test' as const, duty, text: dutyText(duty) }))
  return [...steps, ...questions, ...repeats, ...tests]
}

function dutyText(duty: TestDuty): string {
  const when = duty.dueOn === null ? 'now' : `on ${duty.dueOn}`
  return `Test ${duty.group} ${when}: ${duty.why}.`
}
