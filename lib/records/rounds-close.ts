import type Database from 'better-sqlite3'
import { mayFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { currentFacts } from '@/lib/domain/logbook/entries'
import type { EntryDraft } from '@/lib/domain/logbook/kinds'
import { measuredPlaces } from '@/lib/domain/logbook/place-record'
import {
  followUpsOf,
  type PlannedDuty,
  type StopClosing,
  type StopOutcome,
  stopClosing,
  wellDuties,
} from '@/lib/domain/place'
import type { Day } from '@/lib/domain/quantity/day'
import { writeChange } from './changes'
import type { Db } from './db'
import { entriesOfWell, type Source } from './entries'
import { type RecordProblem, readDrafts, recordInside } from './record'
import { prepared } from './statements'
import { type RoundStop, STOP_SELECT, type StoredStop, stopOf } from './stop-rows'
import { transaction } from './transaction'

export type CloseOutcome =
  /** `holds` is false where a later closing of the same stop stands: the lines are in the logbook all the same. */
  | { kind: 'stored'; holds: boolean }
  /** This very closing was stored before. */
  | { kind: 'already' }
  /** Nothing was stored. `index` is that of a draft; -1 for a field of the closing itself. */
  | { kind: 'refused'; problems: RecordProblem[] }
  /** No such stop for this viewer, whether it exists or not. */
  | { kind: 'no-such-stop' }

/** How the lines came in, and with which import: the demo's closings can be taken back with it. */
type From = { source: Source; batchId: string | null }

/**
 * Closes a stop with the lines that its visit leaves in the logbook: both, or neither.
 *
 * Shape   `sent` is a StopClosing, `drafts` the entries of its visit (lib/domain/logbook/kinds), all with the stop's
 *         well and the closing's visitId. Not found and no access need the event of that name among them, done a line
 *         of service that names every duty of the stop; every outcome needs at least one line.
 *         All ids are made where the closing is made: the same closing sent twice stores once, by the office or a phone.
 *         Two closings of one stop by two devices: all lines are kept, and the closing made later holds, in whichever
 *         order they arrive. `at` is the instant of taking in, `today` the outfit's day.
 */
export async function closeStop(
  db: Db,
  viewer: Viewer,
  sent: unknown,
  drafts: readonly unknown[],
  at: string,
  today: Day,
  from: From = { source: 'desk', batchId: null },
): Promise<CloseOutcome> {
  const closing = stopClosing.safeParse(sent)
  if (!closing.success) {
    return {
      kind: 'refused',
      problems: closing.error.issues.map((issue) => ({
        index: -1,
        field: issue.path.join('.'),
        message: issue.message,
      })),
    }
  }
  const read = readDrafts(viewer, drafts, today)
  if (read.kind === 'refused') return read
  return transaction(db, () => closeInside(db.sqlite, viewer, closing.data, read.drafts, at, from))
}

function closeInside(
  sqlite: Database.Database,
  viewer: Viewer,
  closing: StopClosing,
  drafts: readonly EntryDraft[],
  at: string,
  { source, batchId }: From,
): CloseOutcome {
  const row = prepared<StoredStop>(sqlite, `${STOP_SELECT} AND s."id" = ?`).get(closing.stopId)
  if (!row || !mayFleet(viewer, 'round.work')) return { kind: 'no-such-stop' }
  const stop = stopOf(row, [])
  const problems = checkClosing(closing, stop, drafts)
  if (problems.length > 0) return { kind: 'refused', problems }
  const recorded = recordInside(sqlite, viewer, drafts, at, source, batchId)
  if (recorded.kind === 'no-such-well') return { kind: 'no-such-stop' }
  if (recorded.kind === 'refused') return recorded
  const holds = isLater(closing, stop)
  if (recorded.stored.length === 0 && (!holds || stop.visitId === closing.visitId)) return { kind: 'already' }
  if (holds) storeClosing(sqlite, viewer, closing, stop, drafts, at)
  writeChange(sqlite, viewer, at, {
    action: holds ? 'stop closed' : 'stop closed earlier than it stands',
    targetKind: 'stop',
    targetId: stop.id,
    wellId: stop.wellId,
    before: { outcome: stop.outcome, visitId: stop.visitId, said: stop.said },
    after: closing,
  })
  return { kind: 'stored', holds }
}

/** Equal instants go by the visit's id, so that two devices end the same in either order. */
function isLater({ madeAt, visitId }: StopClosing, stop: RoundStop): boolean {
  if (stop.closedAt === null || stop.visitId === null) return true
  const made = new Date(madeAt).toISOString()
  return made > stop.closedAt || (made === stop.closedAt && visitId > stop.visitId)
}

function checkClosing(closing: StopClosing, stop: RoundStop, drafts: readonly EntryDraft[]): RecordProblem[] {
  const own = (field: string, message: string): RecordProblem => ({ index: -1, field, message })
  const problems = drafts.flatMap((draft, index): RecordProblem[] =>
    draft.wellId === stop.wellId && draft.visitId === closing.visitId
      ? []
      : [{ index, field: 'visitId', message: 'This line belongs to another visit than the stop’s.' }],
  )
  if (drafts.length === 0) problems.push(own('outcome', 'Write down at least one line of the visit.'))
  const { outcome } = closing
  if (outcome !== 'done' && closing.said === '') problems.push(own('said', SAID_WHY[outcome]))
  if ((outcome === 'not-found' || outcome === 'no-access') && !drafts.some((d) => isEvent(d, outcome))) {
    problems.push(own('outcome', 'The line that says so is missing.'))
  }
  const left = outcome === 'done' ? notDone(stop.duties, drafts) : []
  if (left.length > 0) {
    problems.push(
      own('outcome', `Not ticked: ${left.join(', ')}. Tick what was done, or close the stop as partly done.`),
    )
  }
  return problems
}

const SAID_WHY: Record<Exclude<StopOutcome, 'done'>, string> = {
  partly: 'Write what was left, and why',
  'not-found': 'Write what was tried',
  'no-access': 'Write why nobody could get in',
}

const isEvent = ({ payload }: EntryDraft, event: string) =>
  payload.kind === 'event' && payload.event === event

/** The keys that the lines of service of a visit name. */
const doneKeys = (drafts: readonly EntryDraft[]): Set<string> =>
  new Set(drafts.flatMap(({ payload }) => (payload.kind === 'service-done' ? payload.duties : [])))

function notDone(planned: readonly PlannedDuty[], drafts: readonly EntryDraft[]): string[] {
  const done = doneKeys(drafts)
  return wellDuties(planned)
    .filter((duty) => !done.has(duty.key))
    .map((duty) => duty.name)
}

function storeClosing(
  sqlite: Database.Database,
  viewer: Viewer,
  closing: StopClosing,
  stop: RoundStop,
  drafts: readonly EntryDraft[],
  at: string,
): void {
  const on = drafts[0]?.occurredOn ?? at.slice(0, 10)
  const madeAt = new Date(closing.madeAt).toISOString()
  const follow = followUpsOf(closing, stop.duties, doneKeys(drafts), on, hasTies(sqlite, stop.wellId))
  const overtaken = prepared(
    sqlite,
    'SELECT 1 FROM "Stop" WHERE "wellId" = ? AND "id" <> ? AND "closedAt" > ?',
  ).get(stop.wellId, stop.id, madeAt)
  prepared(
    sqlite,
    `UPDATE "Stop" SET "outcome" = ?, "closedAt" = ?, "closedOn" = ?, "closedBy" = ?, "visitId" = ?, "said" = ?,
     "nextSteps" = ?, "settledAt" = ?, "settledBy" = ?, "version" = "version" + 1 WHERE "id" = ?`,
  ).run(
    closing.outcome,
    madeAt,
    on,
    drafts[0]?.byName ?? viewer.name,
    closing.visitId,
    closing.said === '' ? null : closing.said,
    JSON.stringify(follow),
    overtaken ? at : null,
    overtaken ? viewer.name : null,
    stop.id,
  )
  // Whoever stood at the well saw to what was left over from earlier stops, or wrote it down anew.
  prepared(
    sqlite,
    `UPDATE "Stop" SET "settledAt" = ?, "settledBy" = ?, "version" = "version" + 1
     WHERE "wellId" = ? AND "id" <> ? AND "closedAt" <= ? AND "settledAt" IS NULL`,
  ).run(at, viewer.name, stop.wellId, stop.id, madeAt)
  prepared(
    sqlite,
    `UPDATE "Round" SET "status" = 'out', "outAt" = ?, "version" = "version" + 1 WHERE "id" = ? AND "status" = 'planned'`,
  ).run(at, stop.roundId)
}

/** Whether tapes to marks are on record for the head: what there is to mend after it was not found hangs on that. */
function hasTies(sqlite: Database.Database, wellId: string): boolean {
  const [latest] = measuredPlaces(currentFacts(entriesOfWell(sqlite, wellId)))
  return (latest?.fact.ties.length ?? 0) > 0
}
