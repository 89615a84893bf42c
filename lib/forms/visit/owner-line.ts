import { type Fact, TANK_LEVELS, VISIT_ANSWERS, VISIT_REASONS } from '@/lib/domain/logbook/kinds'
import { parseDay } from '@/lib/domain/quantity'
import type { OwnerLine } from '../correction-owner'
import type { Line } from './lines'
import type { Reader } from './reader'

/** A line between household and outfit, read from the form that writes or corrects it; none where a field is refused. */
export function ownerLine(reader: Reader, about: Shape): Line[] {
  const fact = ownerFact(reader, about)
  return fact ? [{ slot: 'owner', fact }] : []
}

/** The kind of line, and the entry that it is about. */
type Shape = { kind: OwnerLine['kind']; of?: string }

function ownerFact(reader: Reader, about: Shape): Fact | null {
  const words = reader.optional('words', 'text', 1000)
  const more = words === undefined ? {} : { text: words }
  const of = about.of ?? ''
  switch (about.kind) {
    case 'tank-level': {
      const level = TANK_LEVELS.find((known) => known === reader.text('tank'))
      return level ? { kind: 'tank-level', level } : refused(reader, 'tank', 'Choose how full the tank is')
    }
    case 'visit-request':
      return visitRequest(reader, more)
    case 'visit-answer': {
      const state = VISIT_ANSWERS.find((known) => known === reader.text('answer'))
      if (!state) return refused(reader, 'answer', 'Choose what becomes of the visit')
      return { kind: 'visit-answer', of, state, ...promised(reader), ...more }
    }
    case 'confirmation': {
      if (reader.text('verdict') === 'confirmed')
        return { kind: 'confirmation', of, verdict: 'confirmed', ...more }
      return words === undefined
        ? refused(reader, 'words', 'Write what you want to know')
        : { kind: 'confirmation', of, verdict: 'queried', text: words }
    }
    case 'owner-answer':
      return words === undefined
        ? refused(reader, 'words', 'Write your answer')
        : { kind: 'owner-answer', of, text: words }
  }
}

function visitRequest(reader: Reader, more: { text?: string }): Fact | null {
  const about = VISIT_REASONS.find((known) => known === reader.text('about'))
  const phone = reader.optional('phone', 'phone number', 60)
  if (!about) return refused(reader, 'about', 'Choose what it is about')
  if (about === 'other' && more.text === undefined)
    return refused(reader, 'words', 'Write in a few words what it is')
  const urgent = reader.text('urgent') === 'yes'
  return { kind: 'visit-request', about, urgent, ...more, ...(phone === undefined ? {} : { phone }) }
}

function promised(reader: Reader): { on?: string } {
  const text = reader.text('promised')
  if (text === '') return {}
  const reading = parseDay(text, null)
  if (reading.ok) return { on: reading.day }
  reader.refuse('promised', reading.message)
  return {}
}

function refused(reader: Reader, field: string, message: string): null {
  reader.refuse(field, message)
  return null
}
