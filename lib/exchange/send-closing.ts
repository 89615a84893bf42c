import type { Viewer } from '@/lib/access/viewer'
import type { EntryDraft } from '@/lib/domain/logbook/kinds'
import type { StopClosing } from '@/lib/domain/place'
import type { Day } from '@/lib/domain/quantity'
import { type ClosingFields, readNotReached } from '@/lib/forms/round-closing'
import type { Db } from '@/lib/records/db'
import { closeStop } from '@/lib/records/rounds-close'
import { SAVED_OTHERWISE, type VisitSent } from './visit-sent'

type Clock = { at: string; today: Day }

/** The field of the form for each field of a closing that can be refused. */
const FIELDS: Record<string, string> = { said: 'stopSaid', other: 'stopOther', outcome: 'stopOutcome' }

/** Takes in the visit of a stop where work was done: its lines and the closing, both or neither. */
export async function sendWithVisit(
  db: Db,
  viewer: Viewer,
  fields: ClosingFields,
  drafts: readonly EntryDraft[],
  clock: Clock,
): Promise<VisitSent> {
  const { outcome } = fields
  if (outcome === null) {
    return { kind: 'asked', errors: { stopOutcome: 'Choose how the stop ended' }, questions: {} }
  }
  const visitId = drafts[0]?.visitId ?? ''
  return close(db, viewer, { ...fields, outcome, visitId }, drafts, clock)
}

/** Takes in the short form of a stop that was not found or not reached, as typed. Sent twice it is stored once. */
export async function sendNotReached(
  db: Db,
  viewer: Viewer,
  wellId: string,
  typed: Readonly<Record<string, string>>,
  clock: Clock,
): Promise<VisitSent> {
  const reading = readNotReached(typed, wellId, clock.at, clock.today)
  if (!reading.ok) return { kind: 'asked', errors: reading.errors, questions: {} }
  return close(db, viewer, reading.closing, reading.drafts, clock)
}

async function close(
  db: Db,
  viewer: Viewer,
  closing: StopClosing,
  drafts: readonly EntryDraft[],
  { at, today }: Clock,
): Promise<VisitSent> {
  const answer = await closeStop(db, viewer, closing, drafts, at, today)
  switch (answer.kind) {
    case 'stored':
    case 'already':
      return { kind: answer.kind, visitId: closing.visitId, wellId: drafts[0]?.wellId ?? '' }
    case 'no-such-stop':
      return {
        kind: 'refused',
        message:
          'This stop was taken off its round. Open the well itself and log what happened there as a visit of its own.',
      }
    case 'refused': {
      if (answer.problems.some((problem) => problem.field === 'id')) {
        return { kind: 'refused', message: SAVED_OTHERWISE }
      }
      const own = answer.problems.filter(({ index }) => index < 0)
      if (own.length === 0) {
        return { kind: 'refused', message: answer.problems.map(({ message }) => message).join(' ') }
      }
      const errors = Object.fromEntries(
        own.map(({ field, message }) => [FIELDS[field] ?? 'stopOutcome', message]),
      )
      return { kind: 'asked', errors, questions: {} }
    }
  }
}
