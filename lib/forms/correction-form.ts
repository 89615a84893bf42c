import { type Fact, PART_KINDS } from '@/lib/domain/logbook/kinds'
import { addDays, type Day, parseDay, parseTime } from '@/lib/domain/quantity'
import { slug } from '@/lib/domain/upkeep'
import type { VisitContext } from './visit/context'
import type { Line } from './visit/lines'
import { eventLine, hasWord, noteLine, sanitaryLine, warrantyOf } from './visit/other-lines'
import { ownerLine } from './visit/owner-line'
import { type Question, Reader } from './visit/reader'
import { readingLines } from './visit/readings'
import { sampleLine, withAsked } from './visit/sample-line'
import { waterLines } from './visit/water-lines'
import { testLines } from './visit/well-tests'

export type Correction = { reason: string; occurredOn: Day; occurredTime: string | null; replacement: Fact }

export type CorrectionReading =
  | { ok: true; correction: Correction }
  | { ok: false; errors: Record<string, string>; questions: Record<string, Question> }

/** Reads the form that corrects a line, `before`: what it should have said, when, and why it is changed. */
export function readCorrection(
  typed: Readonly<Record<string, string>>,
  before: Fact,
  context: VisitContext,
): CorrectionReading {
  const reader = new Reader(typed, context.system)
  const reason = reader.optional('reason', 'reason', 500)
  if (!reason) reader.refuse('reason', 'Say in a few words why the line is corrected')
  const day = parseDay(reader.text('date'), null)
  if (!day.ok) reader.refuse('date', day.message)
  else if (day.day > addDays(context.today, 1)) reader.refuse('date', 'The day must be today or earlier')
  const timeText = reader.text('time')
  const time = timeText === '' ? null : parseTime(timeText)
  if (time && !time.ok) reader.refuse('time', time.message)
  const line = linesFor(before, reader, context, day.ok ? day.day : context.today)[0]
  const { errors, questions } = reader
  if (!line && Object.keys(errors).length === 0 && Object.keys(questions).length === 0) {
    reader.refuse('reason', 'Nothing is left of this line. To take it back, withdraw it instead.')
  }
  if (!line || !day.ok || !reason || Object.keys(errors).length > 0 || Object.keys(questions).length > 0) {
    return { ok: false, errors, questions }
  }
  return {
    ok: true,
    correction: {
      reason,
      occurredOn: day.day,
      occurredTime: time?.ok ? time.time : null,
      replacement: withAsked(before, line.fact),
    },
  }
}

function linesFor(before: Fact, reader: Reader, context: VisitContext, on: Day): Line[] {
  switch (before.kind) {
    case 'service-done':
      return serviceAgain(reader)
    case 'event':
      return eventLine(reader)
    case 'note':
      return noteLine(reader)
    case 'tank-level':
    case 'visit-request':
    case 'visit-answer':
    case 'confirmation':
    case 'owner-answer':
      return ownerLine(reader, before)
    case 'sample':
      return sampleLine(reader, context.today)
    case 'sanitary-inspection':
      return sanitaryLine(reader)
    case 'water-step':
      return waterLines(reader)
    case 'place-measured':
      return []
    case 'recovery-test':
    case 'drawdown-test':
    case 'step-test':
      return testLines(reader)
    default:
      return readingLines(reader, context, on)
  }
}

/** Work and parts as lists of words: what was ticked on the visit may since have left the well's duties. */
function serviceAgain(reader: Reader): Line[] {
  const names = listed(reader.text('workDone'))
  const parts = listed(reader.text('partsFitted')).flatMap((row) => {
    const pieces = row.split(',').map((piece) => piece.trim())
    const warranty = /^warranty (.+)$/i.exec(pieces.at(-1) ?? '')?.[1]
    const [partText = '', countText = '1', ...model] = warranty ? pieces.slice(0, -1) : pieces
    const warrantyMonths = warranty ? warrantyOf(reader, 'partsFitted', warranty) : undefined
    const part = PART_KINDS.find((known) => known === partText.toLowerCase())
    const count = Number(countText)
    if (!part) {
      reader.refuse(
        'partsFitted',
        `"${partText}" is not a kind of part. Write one of: ${PART_KINDS.join(', ')}`,
      )
      return []
    }
    if (!Number.isInteger(count) || count < 1 || count > 99) {
      reader.refuse('partsFitted', `"${row}" must read: part, how many, model`)
      return []
    }
    return [
      {
        part,
        count,
        ...(model.length > 0 ? { model: model.join(', ') } : {}),
        ...(warrantyMonths ? { warrantyMonths } : {}),
      },
    ]
  })
  if (names.length === 0) return []
  if (names.some((name) => name.length > 120 || !hasWord(name))) {
    reader.refuse('workDone', 'Each line of the work done must be words, 120 characters or fewer')
    return []
  }
  return [{ slot: 'service', fact: { kind: 'service-done', duties: names.map(slug), names, parts } }]
}

function listed(text: string): string[] {
  return text
    .split(/\r?\n/)
    .map((row) => row.trim())
    .filter(Boolean)
}
