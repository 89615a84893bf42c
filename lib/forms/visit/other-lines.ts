import { EVENTS, PART_KINDS, SANITARY_ANSWERS } from '@/lib/domain/logbook/kinds'
import { addDays, type Day, parseDay, parseTime } from '@/lib/domain/quantity'
import { slug } from '@/lib/domain/upkeep'
import { readPasted } from '@/lib/domain/water/paste'
import { WHO_DUG_WELL } from '@/lib/domain/water/tables/sanitary'
import type { VisitContext } from './context'
import type { Line } from './lines'
import type { Reader } from './reader'
import { PART_ROWS } from './shape'

/** Work done: duties ticked, other work in words, and parts fitted. */
export function serviceLine(reader: Reader, context: VisitContext): Line[] {
  const ticked = context.duties.filter((duty) => reader.text(`duty:${duty.key}`) !== '')
  const other = reader.optional('otherWork', 'other work', 120)
  const duties = ticked.map((duty) => ({ key: duty.key, name: duty.name }))
  if (other && !hasWord(other)) reader.refuse('otherWork', 'Name the other work in words')
  else if (other) duties.push({ key: slug(other), name: other })
  const parts = partRows(reader)
  if (duties.length === 0) {
    if (parts.length > 0)
      reader.refuse('partKind1', 'Tick the work for which the part was fitted, or name it under other work')
    return []
  }
  return [
    {
      slot: 'service',
      fact: {
        kind: 'service-done',
        duties: duties.map((d) => d.key),
        names: duties.map((d) => d.name),
        parts,
      },
    },
  ]
}

/** Whether a text has a letter or digit in it: what names work must. */
export const hasWord = (text: string): boolean => /[\p{L}\p{N}]/u.test(text)

function partRows(reader: Reader) {
  const parts: { part: (typeof PART_KINDS)[number]; model?: string; count: number }[] = []
  for (let i = 1; i <= PART_ROWS; i += 1) {
    const part = PART_KINDS.find((kind) => kind === reader.text(`partKind${i}`))
    const model = reader.optional(`partModel${i}`, 'model of the part', 120)
    const countText = reader.text(`partCount${i}`)
    if (!part) {
      if (model) reader.refuse(`partKind${i}`, 'Choose what kind of part it is')
      continue
    }
    const count = countText === '' ? 1 : Number(countText)
    if (!Number.isInteger(count) || count < 1 || count > 99) {
      reader.refuse(`partCount${i}`, 'The number of parts must be a whole number from 1 to 99')
      continue
    }
    parts.push({ part, count, ...(model ? { model } : {}) })
  }
  return parts
}

/** A lab sheet: when, where and by whom it was taken, and its rows as pasted or typed. */
export function sampleLine(reader: Reader, today: Day): Line[] {
  const rowsText = reader.text('sampleResults')
  const sampledAt = moment(reader, 'sampleDate', 'sampleTime', 'sampled', today)
  const receivedAt = moment(reader, 'receivedDate', 'receivedTime', 'received', today)
  const lab = reader.optional('sampleLab', 'name of the laboratory', 200)
  const sampleId = reader.optional('sampleId', 'sample number', 120)
  const point = reader.optional('samplePoint', 'sampling point', 200)
  if (rowsText === '') {
    if (sampledAt || sampleId)
      reader.refuse('sampleResults', 'Enter the results of the sheet, one a line: analyte, result, unit')
    return []
  }
  if (!sampledAt) {
    reader.refuse('sampleDate', 'Enter the day on which the sample was taken')
    return []
  }
  const pasted = readPasted(columned(rowsText), { locale: 'en' })
  const lost = pasted.skipped[0]
  if (lost) {
    reader.refuse(
      'sampleResults',
      `Line ${lost.line} ("${lost.text.trim().slice(0, 40)}") has no result in it. Write: analyte, result, unit. Take titles and addresses out.`,
    )
  }
  const results = pasted.rows.map(({ row }) => ({
    analyte: row.analyte.slice(0, 200),
    result: row.result.slice(0, 120),
    ...(row.unit ? { unit: row.unit.slice(0, 60) } : {}),
    ...(row.reportingLimit ? { reportingLimit: row.reportingLimit.slice(0, 60) } : {}),
    ...(row.method ? { method: row.method.slice(0, 120) } : {}),
  }))
  if (results.length === 0)
    reader.refuse('sampleResults', 'No result was found. Write one a line: analyte, result, unit')
  if (results.length > 300)
    reader.refuse('sampleResults', 'A sheet has at most 300 results. Enter it in parts.')
  if (reader.errors.sampleResults || reader.errors.sampleDate) return []
  return [
    {
      slot: 'sample',
      fact: {
        kind: 'sample',
        sampledAt,
        results,
        ...(receivedAt ? { receivedAt } : {}),
        ...(lab ? { lab } : {}),
        ...(sampleId ? { sampleId } : {}),
        ...(point ? { point } : {}),
      },
    },
  ]
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

/** The sanitary inspection; questions left open are left out, and are not "no". */
export function sanitaryLine(reader: Reader): Line[] {
  const answers: Record<string, (typeof SANITARY_ANSWERS)[number]> = {}
  WHO_DUG_WELL.questions.forEach((_, i) => {
    const answer = SANITARY_ANSWERS.find((known) => known === reader.text(`sanitary:q${i + 1}`))
    if (answer) answers[`q${i + 1}`] = answer
  })
  if (Object.keys(answers).length === 0) return []
  return [{ slot: 'sanitary', fact: { kind: 'sanitary-inspection', form: WHO_DUG_WELL.id, answers } }]
}

export function eventLine(reader: Reader): Line[] {
  const event = EVENTS.find((known) => known === reader.text('event'))
  if (!event) return []
  if (event !== 'meter-replaced') return [{ slot: 'event', fact: { kind: 'event', event } }]
  const meter = reader.text('eventMeter')
  if (meter !== 'hours' && meter !== 'volume') {
    reader.refuse('eventMeter', 'Choose which meter was replaced')
    return []
  }
  const use = meter === 'hours' ? 'hours' : 'volume'
  const oldReading = reader.quantity('eventOldReading', use)
  const newReading = reader.quantity('eventNewReading', use)
  return [
    {
      slot: 'event',
      fact: {
        kind: 'event',
        event,
        meter,
        ...(oldReading ? { oldReading } : {}),
        ...(newReading ? { newReading } : {}),
      },
    },
  ]
}

export function noteLine(reader: Reader): Line[] {
  const text = reader.optional('note', 'note', 4000)
  return text ? [{ slot: 'note', fact: { kind: 'note', text } }] : []
}
