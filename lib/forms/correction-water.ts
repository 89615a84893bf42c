import { againWords, NOTICE_WORDS, WATER_STEP_WORDS } from '@/lib/domain/logbook/describe-water'
import {
  CHLORINATED,
  CHLORINE_GONE,
  type Fact,
  SAMPLE_PURPOSES,
  SANITARY_ANSWERS,
} from '@/lib/domain/logbook/kinds'
import type { UnitSystem } from '@/lib/domain/quantity'
import { AGAIN_EVENTS } from '@/lib/domain/water/events'
import { NOTICE_KINDS } from '@/lib/domain/water/tables/notices'
import { WHO_DUG_WELL } from '@/lib/domain/water/tables/sanitary'
import { type CorrectionField, quantityField, textField as text } from './correction-field'
import { tableText } from './sheet/rows'
import { rowKey } from './visit/sample-line'

type SampleFact = Extract<Fact, { kind: 'sample' }>
type WaterStep = Extract<Fact, { kind: 'water-step' }>

const choice = (
  name: string,
  label: string,
  value: string | undefined,
  options: CorrectionField['options'],
): CorrectionField => ({ name, label, value: value ?? '', input: 'choice', options })

const words = (values: readonly string[]) =>
  values.map((value) => ({ value, label: value.replaceAll('-', ' ') }))
const BLANK = { value: '', label: 'not known' }

/** The fields in which a lab sheet is corrected. */
export function sampleFields(fact: SampleFact, system: UnitSystem): CorrectionField[] {
  return [
    text('sampleDate', 'Sampled on', fact.sampledAt.slice(0, 10)),
    text('sampleTime', 'Sampled at', fact.sampledAt.slice(11)),
    text('receivedDate', 'Received by the lab on', fact.receivedAt?.slice(0, 10)),
    text('receivedTime', 'Received at', fact.receivedAt?.slice(11)),
    text('analysedDate', 'Test begun on', fact.analysedAt?.slice(0, 10)),
    text('analysedTime', 'Test begun at', fact.analysedAt?.slice(11)),
    quantityField('receivedTemp', 'Temperature on arrival', fact.receivedTemp, 'temperature', system),
    choice('chlorinated', 'Chlorine in the water', fact.chlorinated, [BLANK, ...words(CHLORINATED)]),
    text('sampleLab', 'Laboratory', fact.lab),
    text('sampleId', 'Sample number', fact.sampleId),
    text('samplePoint', 'Taken from', fact.point),
    text('sampler', 'Taken by', fact.sampler),
    choice('samplePurpose', 'Why it was taken', fact.purpose, [BLANK, ...words(SAMPLE_PURPOSES)]),
    choice('sampleDecimals', 'How the sheet writes numbers', fact.decimals, [
      { value: '', label: 'not asked' },
      { value: 'point', label: '1,200.5' },
      { value: 'comma', label: '1.200,5' },
    ]),
    choice('enteredBy', 'Entered by', fact.enteredBy, [
      { value: '', label: 'the outfit' },
      { value: 'outfit', label: 'the outfit (said so)' },
      { value: 'owner', label: 'the owner' },
    ]),
    text('confirmedBy', 'Confirmed by (a name of the outfit)', fact.confirmedBy),
    text('sampleAsked', 'Asked for, and not on the sheet', fact.asked?.join(', ')),
    text('sampleResults', 'Results as on the sheet', tableText(fact.results), 'lines'),
    ...fact.results.flatMap(saidFields),
  ]
}

/** What was said about single rows: kept while the row stays as it is. */
function saidFields(row: SampleFact['results'][number]): CorrectionField[] {
  const key = rowKey(row)
  const named = `${row.analyte} ${row.result}`
  return [
    ...(row.analyteId ? [text(`${key}:analyte`, `${named}: which analyte it is`, row.analyteId)] : []),
    ...(row.answers ?? []).map(({ question, answer }) =>
      text(`${key}:${question}`, `${named}: answer about the ${question}`, answer),
    ),
    ...(row.leftOut ? [text(`${key}:leftOut`, `${named}: why it is left out`, row.leftOut)] : []),
  ]
}

/** The questions of the inspection form, each with its answer. */
export function inspectionFields(fact: Extract<Fact, { kind: 'sanitary-inspection' }>): CorrectionField[] {
  return WHO_DUG_WELL.questions.map((question, i) =>
    choice(`sanitary:q${i + 1}`, question, fact.answers[`q${i + 1}`], [
      { value: '', label: 'not looked at' },
      ...words(SANITARY_ANSWERS),
    ]),
  )
}

/** The fields of one step of a chain; its tick stands first. */
export function waterStepFields(fact: WaterStep, system: UnitSystem): CorrectionField[] {
  const tick = choice(`water:${fact.step}`, 'Step', 'done', [
    { value: 'done', label: WATER_STEP_WORDS[fact.step] },
  ])
  return [
    tick,
    ...detailFields(fact, system),
    ...('chain' in fact ? [text('waterChain', 'Chain it is about', fact.chain)] : []),
  ]
}

function detailFields(fact: WaterStep, system: UnitSystem): CorrectionField[] {
  switch (fact.step) {
    case 'notice':
      return [
        choice(
          'noticeKind',
          'Notice',
          fact.notice,
          NOTICE_KINDS.map((value) => ({ value, label: NOTICE_WORDS[value] })),
        ),
        text('noticeTo', 'Who was told', fact.to),
        text('noticeHow', 'How', fact.how),
      ]
    case 'disinfected':
      return [
        text('doseTarget', 'Chlorine in the well (mg/L)', fact.targetMgL?.toString()),
        text('doseProduct', 'Product', fact.product),
        text('doseStrength', 'Strength on the label (%)', fact.strengthPercent?.toString()),
        quantityField('doseVolume', 'Liquid put in', fact.volume, 'volume', system),
        text('doseMass', 'Dry product put in (g)', fact.massG?.toString()),
        quantityField('doseContact', 'Left to stand', fact.contact, 'hours', system),
      ]
    case 'flushed':
      return [
        choice('chlorineGone', 'Chlorine gone', fact.chlorineGone, words(CHLORINE_GONE)),
        text('flushWhere', 'Where it was let out', fact.where),
      ]
    case 'remedied':
      return [text('remedyWhat', 'What was done', fact.what)]
    case 'well-repaired':
      return [text('repairWhat', 'What was repaired', fact.what)]
    case 'chain-closed':
      return [text('closedBy', 'Closed by', fact.by), text('closedReason', 'Reason', fact.reason, 'lines')]
    case 'test-again':
      return [
        choice(
          'againEvent',
          'What happened',
          fact.event,
          AGAIN_EVENTS.map((value) => ({ value, label: againWords(value) })),
        ),
      ]
  }
}
