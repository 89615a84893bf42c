import { type EntryDraft, type Fact, uuidSchema } from '@/lib/domain/logbook/kinds'
import { CHOSEN_STEPS, STOP_OUTCOMES, type StopClosing, type StopOutcome } from '@/lib/domain/place'
import type { Day } from '@/lib/domain/quantity/day'
import { lineId, type Slot } from './visit/lines'
import { Reader } from './visit/reader'
import { visitDay, visitTime } from './visit-form'

/** The fields of a closing among those of a sent form; `outcome` null where none was chosen yet. */
export type ClosingFields = Omit<StopClosing, 'outcome' | 'visitId'> & { outcome: StopOutcome | null }

/**
 * What a form says of the stop that it closes; null where it closes none. `at` is the instant of sending; a form that
 * waited on a phone says when it was closed in `stopMadeAt`.
 */
export function closingFields(typed: Readonly<Record<string, string>>, at: string): ClosingFields | null {
  const text = (name: string) => (typed[name] ?? '').trim()
  if (text('stopId') === '') return null
  return {
    stopId: text('stopId'),
    outcome: STOP_OUTCOMES.find((known) => known === text('stopOutcome')) ?? null,
    madeAt: madeAt(text('stopMadeAt'), at),
    said: text('stopSaid'),
    steps: CHOSEN_STEPS.filter((step) => text(`step:${step}`) !== ''),
    other: text('stopOther'),
  }
}

/** When a phone without signal says that it was closed, as far as that can be: a clock ahead of ours is not believed. */
function madeAt(said: string, at: string): string {
  const made = /^\d{4}-\d{2}-\d{2}T[\d:.]+Z$/.test(said) ? Date.parse(said) : Number.NaN
  return made <= Date.parse(at) ? new Date(made).toISOString() : at
}

export type NotReached =
  | { ok: true; closing: StopClosing; drafts: EntryDraft[] }
  | { ok: false; errors: Record<string, string> }

/**
 * Reads the form of a stop that was not reached, or was not to be found: the closing, and the lines that it leaves in
 * the logbook of the well. The ids come from the visit's id, so that the form sent twice is stored once.
 */
export function readNotReached(
  typed: Readonly<Record<string, string>>,
  wellId: string,
  at: string,
  today: Day,
): NotReached {
  const reader = new Reader(typed, 'metric')
  const visitId = uuidSchema.safeParse(reader.text('visitId'))
  const fields = closingFields(typed, at)
  if (!visitId.success || !fields) {
    return {
      ok: false,
      errors: { stopOutcome: 'This form has lost its number: open it again from the round' },
    }
  }
  const { outcome } = fields
  const on = visitDay(reader, today)
  const time = visitTime(reader)
  const byName = reader.optional('by', 'name', 120) ?? null
  if (outcome !== 'not-found' && outcome !== 'no-access') {
    reader.refuse('stopOutcome', 'Choose what happened')
  } else if (fields.said === '') {
    reader.refuse('stopSaid', SAID[outcome])
  } else if (fields.said.length > 1000) {
    reader.refuse('stopSaid', 'This must be 1,000 characters or fewer')
  }
  if (fields.other.length > 400) reader.refuse('stopOther', 'This must be 400 characters or fewer')
  if (Object.keys(reader.errors).length > 0 || (outcome !== 'not-found' && outcome !== 'no-access')) {
    return { ok: false, errors: reader.errors }
  }
  const line = (slot: Slot, payload: Fact): EntryDraft => ({
    id: lineId(visitId.data, slot),
    wellId,
    visitId: visitId.data,
    occurredOn: on,
    occurredTime: time,
    byName,
    supersedes: null,
    withdraws: null,
    payload,
  })
  return {
    ok: true,
    closing: { ...fields, outcome, visitId: visitId.data },
    drafts: [
      line('event', { kind: 'event', event: outcome }),
      line('note', { kind: 'note', text: `${NOTE[outcome]}: ${fields.said}` }),
    ],
  }
}

const SAID = {
  'not-found': 'Write what was tried, so that the next one does not try it again',
  'no-access': 'Write why nobody could get in',
}

const NOTE = { 'not-found': 'Head not found. Tried', 'no-access': 'No access' }
