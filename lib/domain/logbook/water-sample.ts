import { isAside } from '@/lib/domain/water/analytes'
import { answerQuestion } from '@/lib/domain/water/result-questions'
import { type ResultReading, readResult } from '@/lib/domain/water/results'
import type { Result, Sample } from '@/lib/domain/water/types'
import type { Fact } from './kinds'

type SampleFact = Extract<Fact, { kind: 'sample' }>
type ResultRow = SampleFact['results'][number]

const KELVIN_AT_ZERO_C = 273.15
const CHLORINATED = { yes: true, no: false, unknown: null } as const

/**
 * A lab sheet of the logbook as the judge reads it, with what people answered about its rows. A row that cannot be read is
 * kept as unread: it can never help a sample to "meets". What an owner entered and nobody confirmed is marked so.
 */
export function sampleOf(fact: SampleFact, id: string): Sample {
  const known = READ.get(fact)
  if (known?.id === id) return known
  const sample = readSample(fact, id)
  READ.set(fact, sample)
  return sample
}

/** A replay asks for the same sheets again for every day: each is read once, as long as it is held. */
const READ = new WeakMap<SampleFact, Sample>()

function readSample(fact: SampleFact, id: string): Sample {
  const rows = fact.results
    .filter((row) => row.analyteId !== undefined || !isAside(row.analyte))
    .map((row) => rowOf(row, fact.decimals))
  const results = rows.flatMap((row) => ('why' in row ? [] : [row]))
  return {
    id,
    sampledAt: fact.sampledAt,
    receivedAt: fact.receivedAt ?? null,
    analysedAt: fact.analysedAt ?? null,
    receivedTempC: fact.receivedTemp ? tenths(fact.receivedTemp.si - KELVIN_AT_ZERO_C) : null,
    lab: fact.lab ?? '',
    point: fact.point ?? '',
    chlorinated: chlorineMeasured(results) ?? CHLORINATED[fact.chlorinated ?? 'unknown'],
    unconfirmed: fact.enteredBy === 'owner' && fact.confirmedBy === undefined,
    results,
    asked: fact.asked ?? [],
    unread: rows.flatMap((row) => ('why' in row ? [row] : [])),
  }
}

/** Chlorine that was measured in the sample was there, whatever else the sheet says. */
function chlorineMeasured(results: readonly Result[]): true | null {
  const found = results.some(
    ({ analyte, operator, value }) =>
      (analyte === 'free-chlorine' || analyte === 'total-chlorine') && operator === '=' && (value ?? 0) > 0,
  )
  return found ? true : null
}

/** A thermometer of a laboratory reads tenths; this takes off the noise of going to kelvin and back. */
const tenths = (value: number): number => Math.round(value * 10) / 10

/** One row read and its questions answered; what is wrong with it where it cannot be read. */
function rowOf(row: ResultRow, decimals: SampleFact['decimals']): Result | Sample['unread'][number] {
  const reading = readResult(
    {
      analyte: row.analyte,
      result: row.result,
      unit: row.unit ?? '',
      reportingLimit: row.reportingLimit ?? '',
      qualifier: row.qualifier ?? '',
      method: row.method ?? '',
    },
    {
      locale: decimals === 'comma' ? 'comma' : 'en',
      ...(row.analyteId === undefined ? {} : { analyteId: row.analyteId }),
    },
  )
  if (reading.kind !== 'result')
    return { text: [row.analyte, row.result, row.unit].filter(Boolean).join(' '), why: whyNot(reading) }
  const answered = (row.answers ?? []).reduce(
    (result, { question, answer }) => answerQuestion(result, question, answer),
    reading.result,
  )
  return row.leftOut === undefined ? answered : { ...answered, leftOut: row.leftOut }
}

/** One sentence for the person who has the sheet in hand. */
function whyNot(reading: Exclude<ResultReading, { kind: 'result' }>): string {
  switch (reading.kind) {
    case 'which-analyte':
      return reading.ask
    case 'unknown-analyte':
      return `"${reading.name}" is not a test known here: write the name in full, or leave the row out with a reason.`
    case 'problem':
      return reading.message
  }
}
