import type { Viewer } from '@/lib/access/viewer'
import { entryDraftSchema } from '@/lib/domain/logbook/kinds'
import type { Day } from '@/lib/domain/quantity'
import type { Db } from '@/lib/records/db'
import { hasEntry } from '@/lib/records/entries'
import { record } from '@/lib/records/record'
import { sendSheet } from '../send-sheet'
import { sendTest } from '../send-test'
import { sendVisit } from '../send-visit'
import type { VisitSent } from '../visit-sent'
import type { BatchItem, ItemAnswer, Refusal } from './shape'

/** What became of an item, before it has its place in the reply. */
export type Outcome = ItemAnswer extends infer A
  ? A extends unknown
    ? Omit<A, 'index' | 'id'>
    : never
  : never

type Clock = { at: string; today: Day }

/** Takes in one item of a batch, by the same way as the forms. Throws what the database throws. */
export function takeItem(db: Db, viewer: Viewer, item: BatchItem, clock: Clock): Promise<Outcome> {
  switch (item.kind) {
    case 'visit':
    case 'test':
    case 'sheet':
      return takeForm(db, viewer, item, clock)
    case 'entries':
      return takeEntries(db, viewer, item, clock)
  }
}

type FormItem = Exclude<BatchItem, { kind: 'entries' }>

async function takeForm(db: Db, viewer: Viewer, item: FormItem, clock: Clock): Promise<Outcome> {
  const sent = await sendForm(db, viewer, item, clock)
  switch (sent.kind) {
    case 'stored':
    case 'already':
      return { outcome: sent.kind }
    case 'no-such-well':
      return { outcome: 'refused', why: [NO_SUCH_WELL] }
    case 'refused':
      return { outcome: 'refused', why: [{ field: '', wrong: sent.message, todo: LOOK }] }
    case 'asked':
      return {
        outcome: 'refused',
        why: [
          ...Object.entries(sent.errors).map(([field, wrong]) => ({ field, wrong, todo: MEND })),
          ...Object.entries(sent.questions).map(([field, { message }]) => ({
            field,
            wrong: message,
            todo: ANSWER,
          })),
        ],
        ...(Object.keys(sent.questions).length > 0 ? { questions: sent.questions } : {}),
      }
  }
}

function sendForm(db: Db, viewer: Viewer, item: FormItem, clock: Clock): Promise<VisitSent> {
  const { wellId, units } = item
  const typed = { ...item.typed, visitId: item.id }
  switch (item.kind) {
    case 'visit':
      return sendVisit(db, viewer, wellId, typed, clock, units)
    case 'test':
      return sendTest(db, viewer, wellId, item.test, typed, clock, units)
    case 'sheet':
      return sendSheet(db, viewer, wellId, typed, clock, units)
  }
}

async function takeEntries(
  db: Db,
  viewer: Viewer,
  item: Extract<BatchItem, { kind: 'entries' }>,
  clock: Clock,
): Promise<Outcome> {
  if (namesAbsent(db, item.entries))
    return { outcome: 'later', why: 'It waits for the line that it corrects, which has not arrived yet.' }
  const outcome = await record(db, viewer, item.entries, clock.at, clock.today)
  switch (outcome.kind) {
    case 'stored':
      return { outcome: outcome.stored.length > 0 ? 'stored' : 'already' }
    case 'no-such-well':
      return { outcome: 'refused', why: [NO_SUCH_WELL] }
    case 'refused':
      return {
        outcome: 'refused',
        why: outcome.problems.map(({ index, field, message }) => ({
          field: `entries.${index}.${field}`,
          wrong: message,
          todo: LOOK,
        })),
      }
  }
}

/** Whether a correction or withdrawal names a line that is neither stored nor sent with it. */
function namesAbsent(db: Db, entries: readonly unknown[]): boolean {
  const drafts = entries.flatMap((entry) => {
    const parsed = entryDraftSchema.safeParse(entry)
    return parsed.success ? [parsed.data] : []
  })
  const together = new Set(drafts.map(({ id }) => id))
  return drafts
    .flatMap(({ supersedes, withdraws }) => supersedes ?? withdraws ?? [])
    .some((target) => !together.has(target) && !hasEntry(db.sqlite, target))
}

const MEND = 'Mend it in the record and send it again'
const ANSWER = 'Answer it in the record, or mend the number, and send it again'
const LOOK = 'Open the record; save it as a file if it must not be lost'

const NO_SUCH_WELL: Refusal = {
  field: 'wellId',
  wrong: 'This well is not in the register any more, or is not yours to write to',
  todo: 'Ask whoever keeps the register. The record stays on the phone and can be saved as a file',
}
