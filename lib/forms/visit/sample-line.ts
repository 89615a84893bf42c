import { CHLORINATED, type Fact, SAMPLE_PURPOSES } from '@/lib/domain/logbook/kinds'
import { addDays, type Day, parseDay, parseTime } from '@/lib/domain/quantity'
import { slug } from '@/lib/domain/upkeep'
import { findAnalyte, matchAnalyte } from '@/lib/domain/water/analytes'
import { readPasted } from '@/lib/domain/water/paste'
import type { RowText } from '@/lib/domain/water/results'
import type { Line } from './lines'
import type { Reader } from './reader'

type SampleFact = Extract<Fact, { kind: 'sample' }>
type ResultRow = SampleFact['results'][number]

/** A lab sheet: when, where and by whom it was taken, and its rows as pasted or typed. */
export function sampleLine(reader: Reader, today: Day): Line[] {
  const rowsText = reader.text('sampleResults')
  const about = aboutSample(reader, today)
  if (rowsText === '') {
    if (about.sampledAt || about.sampleId)
      reader.refuse('sampleResults', 'Enter the results of the sheet, one a line: analyte, result, unit')
    return []
  }
  const { sampledAt } = about
  if (!sampledAt) {
    reader.refuse('sampleDate', 'Enter the day on which the sample was taken')
    return []
  }
  const results = sheetRows(reader, rowsText, about.decimals)
  if (reader.errors.sampleResults || reader.errors.sampleDate) return []
  return [{ slot: 'sample', fact: { kind: 'sample', ...about, sampledAt, results } }]
}

/** Everything about a sample but its results; what was left blank is left out. */
function aboutSample(reader: Reader, today: Day): Partial<Omit<SampleFact, 'kind' | 'results'>> {
  const sampledAt = moment(reader, 'sampleDate', 'sampleTime', 'sampled', today)
  const receivedAt = moment(reader, 'receivedDate', 'receivedTime', 'received', today)
  const analysedAt = moment(reader, 'analysedDate', 'analysedTime', 'tested', today)
  const receivedTemp = reader.quantity('receivedTemp', 'temperature')
  const chlorinated = oneOf(CHLORINATED, reader.text('chlorinated'))
  const lab = reader.optional('sampleLab', 'name of the laboratory', 200)
  const sampleId = reader.optional('sampleId', 'sample number', 120)
  const point = reader.optional('samplePoint', 'sampling point', 200)
  const sampler = reader.optional('sampler', 'name of who took the sample', 120)
  const purpose = oneOf(SAMPLE_PURPOSES, reader.text('samplePurpose'))
  const decimals = oneOf(['point', 'comma'] as const, reader.text('sampleDecimals'))
  const confirmedBy = reader.optional('confirmedBy', 'name of who confirmed the sheet', 120)
  const asked = askedFor(reader)
  const enteredBy = oneOf(['outfit', 'owner'] as const, reader.text('enteredBy'))
  return {
    ...(sampledAt ? { sampledAt } : {}),
    ...(receivedAt ? { receivedAt } : {}),
    ...(analysedAt ? { analysedAt } : {}),
    ...(receivedTemp ? { receivedTemp } : {}),
    ...(chlorinated ? { chlorinated } : {}),
    ...(lab ? { lab } : {}),
    ...(sampleId ? { sampleId } : {}),
    ...(point ? { point } : {}),
    ...(sampler ? { sampler } : {}),
    ...(purpose ? { purpose } : {}),
    ...(decimals ? { decimals } : {}),
    ...(asked.length > 0 ? { asked } : {}),
    ...(enteredBy ? { enteredBy } : {}),
    ...(confirmedBy ? { confirmedBy } : {}),
  }
}

/** Analytes that were ordered, separated by commas; each by its name or id. */
function askedFor(reader: Reader): string[] {
  const names = reader
    .text('sampleAsked')
    .split(/[,;\n]/)
    .map((name) => name.trim())
    .filter(Boolean)
  const ids = names.map((name) => {
    const match = matchAnalyte(name)
    if (match.kind !== 'match')
      reader.refuse('sampleAsked', `"${name}" is not a test known here: write its name in full`)
    return match.kind === 'match' ? match.id : name
  })
  return [...new Set(ids)]
}

/**
 * A corrected lab sheet with what is no longer on it marked as asked for, so that taking a row out never makes a sample
 * look better; a person who says otherwise clears it in a second correction.
 */
export function withAsked(before: Fact, after: Fact): Fact {
  if (before.kind !== 'sample' || after.kind !== 'sample') return after
  const now = new Set(after.results.map(idOfRow))
  const gone = before.results.flatMap((row) => {
    const id = idOfRow(row)
    return id === null || now.has(id) ? [] : [id]
  })
  return gone.length === 0 ? after : { ...after, asked: [...new Set([...(after.asked ?? []), ...gone])] }
}

function idOfRow(row: ResultRow): string | null {
  if (row.analyteId !== undefined) return row.analyteId
  const match = matchAnalyte(row.analyte)
  return match.kind === 'match' ? match.id : null
}

const oneOf = <T extends string>(known: readonly T[], text: string): T | undefined =>
  known.find((each) => each === text)

function sheetRows(reader: Reader, text: string, decimals: SampleFact['decimals']): ResultRow[] {
  const pasted = readPasted(columned(text), { locale: decimals === 'comma' ? 'comma' : 'en' })
  const lost = pasted.skipped[0]
  if (lost) {
    reader.refuse(
      'sampleResults',
      `Line ${lost.line} ("${lost.text.trim().slice(0, 40)}") has no result in it. Write: analyte, result, unit. Take titles and addresses out.`,
    )
  }
  if (pasted.rows.length === 0)
    reader.refuse('sampleResults', 'No result was found. Write one a line: analyte, result, unit')
  if (pasted.rows.length > 300)
    reader.refuse('sampleResults', 'A sheet has at most 300 results. Enter it in parts.')
  return pasted.rows.map(({ row }) => ({ ...rowOf(row), ...saidOf(reader, row) }))
}

function rowOf(row: RowText): ResultRow {
  return {
    analyte: row.analyte.slice(0, 200),
    result: row.result.slice(0, 120),
    ...(row.unit ? { unit: row.unit.slice(0, 60) } : {}),
    ...(row.reportingLimit ? { reportingLimit: row.reportingLimit.slice(0, 60) } : {}),
    ...(row.method ? { method: row.method.slice(0, 120) } : {}),
    ...(row.qualifier ? { qualifier: row.qualifier.slice(0, 60) } : {}),
  }
}

export const ROW_QUESTIONS = ['form', 'scale', 'qualifier', 'zero', 'limit'] as const

/**
 * What the fields of a row's answers begin with: `${rowKey(row)}:form`, `:scale`, `:qualifier`, `:zero`, `:limit`, `:analyte`
 * (which analyte a doubtful name means) and `:leftOut`. Made of what the row says, so that an answer stays with its row
 * when lines are put in before it, and is asked again when the row is changed.
 */
export function rowKey(row: Pick<RowText, 'analyte' | 'result'> & { unit?: string }): string {
  const plain = [row.analyte, row.result, row.unit ?? '']
    .join(' ')
    .replace(/[<≤]/g, ' lt ')
    .replace(/[>≥]/g, ' gt ')
  return `row:${slug(plain.replace(/\./g, '-p-').replace(/,/g, '-c-'))}`
}

/** What a person said about a row: which analyte, how its questions are answered, why it is left out. */
function saidOf(reader: Reader, row: RowText): Pick<ResultRow, 'analyteId' | 'answers' | 'leftOut'> {
  const key = rowKey(row)
  const analyteId = findAnalyte(reader.text(`${key}:analyte`))?.id
  const answers = ROW_QUESTIONS.flatMap((question) => {
    const answer = reader.optional(`${key}:${question}`, 'answer', 60)
    return answer === undefined ? [] : [{ question, answer }]
  })
  const leftOut = reader.optional(`${key}:leftOut`, 'reason', 200)
  return {
    ...(analyteId ? { analyteId } : {}),
    ...(answers.length > 0 ? { answers } : {}),
    ...(leftOut ? { leftOut } : {}),
  }
}

/** Typed lists have their parts set off by a comma and a blank; a pasted table has tabs or semicolons already. */
function columned(text: string): string {
  return /[\t;]/.test(text) ? text : text.replace(/,[ \t]+/g, '\t')
}

/** A day with or without its time, as "YYYY-MM-DD" or "YYYY-MM-DDTHH:MM"; undefined where blank. */
function moment(
  reader: Reader,
  dayField: string,
  timeField: string,
  what: string,
  today: Day,
): string | undefined {
  const dayText = reader.text(dayField)
  const timeText = reader.text(timeField)
  if (dayText === '') {
    if (timeText !== '') reader.refuse(dayField, `Enter the day too on which the sample was ${what}`)
    return undefined
  }
  const day = parseDay(dayText, null)
  if (!day.ok) {
    reader.refuse(dayField, day.message)
    return undefined
  }
  if (day.day > addDays(today, 1)) {
    reader.refuse(dayField, `The day on which the sample was ${what} must be today or earlier`)
    return undefined
  }
  if (timeText === '') return day.day
  const time = parseTime(timeText)
  if (time.ok) return `${day.day}T${time.time}`
  reader.refuse(timeField, time.message)
  return undefined
}
