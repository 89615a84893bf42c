import { type EntryDraft, uuidSchema } from '@/lib/domain/logbook/kinds'
import { addDays, type Day, parseDay, parseTime } from '@/lib/domain/quantity'
import type { VisitContext } from './visit/context'
import { type Line, lineId } from './visit/lines'
import { eventLine, noteLine, sanitaryLine, serviceLine } from './visit/other-lines'
import { type Question, Reader } from './visit/reader'
import { readingLines } from './visit/readings'
import { sampleLine } from './visit/sample-line'
import { waterLines } from './visit/water-lines'
import { testLines } from './visit/well-tests'

export type VisitReading =
  | { ok: true; drafts: EntryDraft[] }
  | { ok: false; errors: Record<string, string>; questions: Record<string, Question> }

/**
 * Reads a sent visit form into the entries it says, or into one sentence a field and the
 * questions that odd values raise. All or nothing: no part of a refused form is stored.
 *
 * Shape   `typed` holds every field as typed; blank fields write nothing, at least one must.
 *         `visitId` comes with the form and makes the ids of its lines, so that a form sent
 *         twice is stored once.
 */
export function readVisit(typed: Readonly<Record<string, string>>, context: VisitContext): VisitReading {
  const reader = new Reader(typed, context.system)
  const visitId = uuidSchema.safeParse(reader.text('visitId'))
  if (!visitId.success) {
    return {
      ok: false,
      errors: { visitId: 'This form has lost its number: open it again from the well' },
      questions: {},
    }
  }
  const on = visitDay(reader, context.today)
  const time = visitTime(reader)
  const byName = reader.optional('by', 'name', 120) ?? null
  const lines: Line[] = [
    ...serviceLine(reader, context),
    ...readingLines(reader, context, on),
    ...testLines(reader),
    ...sampleLine(reader, context.today),
    ...sanitaryLine(reader),
    ...waterLines(reader),
    ...eventLine(reader),
    ...noteLine(reader),
  ]
  const { errors, questions } = reader
  if (lines.length === 0 && Object.keys(errors).length === 0 && Object.keys(questions).length === 0) {
    reader.refuse(
      'note',
      'Nothing was written yet: tick what was done, or enter a reading, an event or a note',
    )
  }
  if (Object.keys(errors).length > 0 || Object.keys(questions).length > 0)
    return { ok: false, errors, questions }
  return {
    ok: true,
    drafts: lines.map(({ slot, fact }) => ({
      id: lineId(visitId.data, slot),
      wellId: context.wellId,
      visitId: visitId.data,
      occurredOn: on,
      occurredTime: time,
      byName,
      supersedes: null,
      withdraws: null,
      payload: fact,
    })),
  }
}

/** The day of a visit or test; today stands in while a refused date is being mended, so that the rest can be read. */
export function visitDay(reader: Reader, today: Day): Day {
  const text = reader.text('date')
  if (text === '') {
    reader.refuse('date', 'Enter the day of the visit, like 27 Mar 2026')
    return today
  }
  const reading = parseDay(text, null)
  if (!reading.ok) {
    reader.refuse('date', reading.message)
    return today
  }
  if (reading.day > addDays(today, 1)) {
    reader.refuse('date', 'The day of the visit must be today or earlier')
    return today
  }
  return reading.day
}

/** The time of day as HH:MM; null where blank or refused. */
export function visitTime(reader: Reader): string | null {
  const text = reader.text('time')
  if (text === '') return null
  const reading = parseTime(text)
  if (reading.ok) return reading.time
  reader.refuse('time', reading.message)
  return null
}
