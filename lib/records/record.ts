import type Database from 'better-sqlite3'
import { may } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { type EntryDraft, entryDraftSchema } from '@/lib/domain/logbook/kinds'
import { addDays, type Day, isDay } from '@/lib/domain/quantity/day'
import { takesPositiveBack } from './chain-guard'
import { writeChange } from './changes'
import type { Db } from './db'
import { entryRow, insertEntry, type Source } from './entries'
import { refusedToOwner } from './owner-entries'
import { partsNow, writePartChanges } from './part-register'
import type { EntryRow } from './rows'
import { noteSecurity } from './security-log'
import { asSpokenBy } from './spoken-by'
import { refreshWell } from './standings'
import { prepared } from './statements'
import { transaction } from './transaction'

/** What is wrong with one of the drafts, and where. */
export type RecordProblem = { index: number; field: string; message: string }

export type RecordOutcome =
  /** `stored` are new; `already` were there from an earlier sending of the same entries. */
  | { kind: 'stored'; stored: string[]; already: string[] }
  | { kind: 'refused'; problems: RecordProblem[] }
  /** No such well for this viewer, whether it exists or not. */
  | { kind: 'no-such-well' }

type Refused = Extract<RecordOutcome, { kind: 'refused' }>

/** More lines than any visit has; refused before anything is looked at. */
export const DRAFTS_MAX = 200

/**
 * The one way into the logbook. Checks the shape of every draft, asks whether the viewer may
 * write to its well, and then in one transaction stores the entries, writes the line of the
 * change record and reckons the wells anew. All of it happens, or none.
 *
 * `at` is the instant of recording, `today` the day at the outfit: both from the caller's clock.
 * Sending the same drafts again stores nothing twice; an id that is taken by something else is refused.
 */
export async function record(
  db: Db,
  viewer: Viewer,
  drafts: readonly unknown[],
  at: string,
  today: Day,
  source: Source = viewer.role === 'owner' ? 'owner' : 'desk',
): Promise<RecordOutcome> {
  const checked = readDrafts(viewer, drafts, today)
  if (checked.kind === 'refused') return checked
  const outcome = await transaction(db, () => recordInside(db.sqlite, viewer, checked.drafts, at, source))
  if (outcome.kind === 'no-such-well')
    noteSecurity(db, { what: 'denied', by: viewer.userId, about: 'record' })
  return outcome
}

/** The first half of `record`: the shape of every draft, in the name of who may speak. Reads nothing. */
export function readDrafts(
  viewer: Viewer,
  drafts: readonly unknown[],
  today: Day,
): { kind: 'ok'; drafts: EntryDraft[] } | Refused {
  if (drafts.length > DRAFTS_MAX) {
    return refused(0, '', `One visit holds at most ${DRAFTS_MAX} lines. Send it in parts.`)
  }
  const shaped = checkDrafts(viewer, drafts, today)
  if (shaped.kind === 'refused') return shaped
  return { kind: 'ok', drafts: shaped.drafts.map((draft) => asSpokenBy(viewer, draft)) }
}

/**
 * The second half of `record`, for a write that must be one with others: call it within their transaction, with what
 * `readDrafts` answered. What it refuses has written nothing.
 */
export function recordInside(
  sqlite: Database.Database,
  viewer: Viewer,
  drafts: readonly EntryDraft[],
  at: string,
  source: Source,
  batchId: string | null = null,
): RecordOutcome {
  for (const [index, draft] of drafts.entries()) {
    const well = prepared<{ ownerId: string | null }>(
      sqlite,
      'SELECT "ownerId" FROM "Well" WHERE "id" = ? AND "struck" = 0',
    ).get(draft.wellId)
    const changesOthers = draft.supersedes !== null || draft.withdraws !== null
    if (!well || !may(viewer, changesOthers ? 'entry.correct' : 'entry.record', well.ownerId)) {
      return { kind: 'no-such-well' }
    }
    if (closesChain(draft) && !may(viewer, 'chain.close', well.ownerId)) {
      return refused(index, 'payload.step', 'Only an installer ends a chain without clear samples.')
    }
  }
  const problems = drafts.flatMap((draft, index) => checkAgainstLogbook(sqlite, draft, index, drafts))
  if (problems.length > 0) return { kind: 'refused', problems }
  return liftsNotice(sqlite, viewer, drafts) ?? storeAll(sqlite, viewer, drafts, at, source, batchId)
}

/** Whether a draft ends a chain by a person's word, be it as a correction of another line. */
function closesChain({ payload }: EntryDraft): boolean {
  const fact = payload.kind === 'correction' ? payload.replacement : payload
  return fact.kind === 'water-step' && fact.step === 'chain-closed'
}

/** Taking a positive back ends what it began, as closing a chain does: the same people may. */
function liftsNotice(
  sqlite: Database.Database,
  viewer: Viewer,
  drafts: readonly EntryDraft[],
): RecordOutcome | null {
  const changed = drafts.filter(({ supersedes, withdraws }) => supersedes !== null || withdraws !== null)
  for (const wellId of new Set(changed.map((draft) => draft.wellId))) {
    const well = prepared<{ ownerId: string | null }>(
      sqlite,
      'SELECT "ownerId" FROM "Well" WHERE "id" = ?',
    ).get(wellId)
    if (may(viewer, 'chain.close', well?.ownerId ?? null)) continue
    const draft = takesPositiveBack(sqlite, wellId, drafts)
    if (draft)
      return refused(
        drafts.indexOf(draft),
        draft.withdraws === null ? 'supersedes' : 'withdraws',
        POSITIVE_STAYS,
      )
  }
  return null
}

const POSITIVE_STAYS =
  'This would take back a positive, or end what follows on one. Only an installer does that: ask one, and have the laboratory’s word for it. Nothing was changed.'

function storeAll(
  sqlite: Database.Database,
  viewer: Viewer,
  drafts: readonly EntryDraft[],
  at: string,
  source: Source,
  batchId: string | null,
): RecordOutcome {
  const stored: string[] = []
  const already: string[] = []
  const provenance = { authorId: viewer.userId, source, batchId, recordedAt: at }
  const touched = new Map<string, EntryDraft[]>()
  const parts = new Map(drafts.filter(mayMoveParts).map(({ wellId }) => [wellId, partsNow(sqlite, wellId)]))
  for (const draft of drafts) {
    if (!insertEntry(sqlite, draft, provenance)) {
      already.push(draft.id)
      continue
    }
    stored.push(draft.id)
    touched.set(draft.wellId, [...(touched.get(draft.wellId) ?? []), draft])
  }
  for (const [wellId, lines] of touched) {
    writeChange(sqlite, viewer, at, {
      action: 'entries recorded',
      targetKind: 'visit',
      targetId: lines[0]?.visitId ?? wellId,
      wellId,
      after: lines.map((line) => ({ id: line.id, kind: line.payload.kind })),
    })
    refreshWell(sqlite, wellId)
    const before = parts.get(wellId)
    if (before) writePartChanges(sqlite, viewer, at, wellId, before)
  }
  return { kind: 'stored', stored, already }
}

/** Whether a line may put a part in, or take one back: a correction or a withdrawal of any line may. */
const mayMoveParts = ({ payload }: EntryDraft): boolean =>
  payload.kind === 'service-done' || payload.kind === 'correction' || payload.kind === 'withdrawal'

function checkDrafts(
  viewer: Viewer,
  drafts: readonly unknown[],
  today: Day,
): { kind: 'ok'; drafts: EntryDraft[] } | Refused {
  const problems: RecordProblem[] = []
  const good: EntryDraft[] = []
  drafts.forEach((draft, index) => {
    const parsed = entryDraftSchema.safeParse(draft)
    if (!parsed.success) {
      for (const issue of parsed.error.issues) {
        problems.push({ index, field: issue.path.join('.'), message: issue.message })
      }
      return
    }
    problems.push(...checkDays(parsed.data, index, today))
    const message = refusedToOwner(viewer, parsed.data)
    if (message !== null) problems.push({ index, field: 'payload.kind', message })
    good.push(parsed.data)
  })
  return problems.length > 0 ? { kind: 'refused', problems } : { kind: 'ok', drafts: good }
}

/** A phone a time zone ahead may already write tomorrow's date; later than that is a slip. */
function checkDays(draft: EntryDraft, index: number, today: Day): RecordProblem[] {
  const days =
    draft.payload.kind === 'correction' ? [draft.occurredOn, draft.payload.occurredOn] : [draft.occurredOn]
  return days.flatMap((day) => {
    if (!isDay(day)) return [{ index, field: 'occurredOn', message: `${day} is not a day of the calendar` }]
    if (day > addDays(today, 1)) return [{ index, field: 'occurredOn', message: `${day} is in the future` }]
    return []
  })
}

function checkAgainstLogbook(
  sqlite: Database.Database,
  draft: EntryDraft,
  index: number,
  together: readonly EntryDraft[],
): RecordProblem[] {
  const problems: RecordProblem[] = []
  const stored = entryRow(sqlite, draft.id)
  const twin = together.find((other, at) => at < index && other.id === draft.id)
  if ((stored && !saysTheSame(stored, draft)) || twin) {
    problems.push({ index, field: 'id', message: 'Another entry already has this id. Write the line anew.' })
  }
  for (const field of ['supersedes', 'withdraws'] as const) {
    const targetId = draft[field]
    if (targetId === null) continue
    const target =
      targetId === draft.id
        ? undefined
        : (entryRow(sqlite, targetId) ?? together.find((other) => other.id === targetId))
    if (!target || target.wellId !== draft.wellId) {
      problems.push({ index, field, message: 'The entry that this one names is not in this logbook.' })
    } else if (field === 'supersedes' && draft.payload.kind === 'correction') {
      const was = 'kind' in target ? target.kind : target.payload.kind
      if (was === 'withdrawal') {
        problems.push({ index, field, message: 'A withdrawal cannot be corrected. Withdraw it instead.' })
      }
    }
  }
  return problems
}

/** Whether a stored line is the draft sent once more: in every word, or an answer of "already there" would lose one. */
function saysTheSame(stored: EntryRow, draft: EntryDraft): boolean {
  return (
    stored.wellId === draft.wellId &&
    stored.visitId === draft.visitId &&
    stored.occurredOn === draft.occurredOn &&
    stored.occurredTime === draft.occurredTime &&
    stored.supersedes === draft.supersedes &&
    stored.withdraws === draft.withdraws &&
    stored.payload === JSON.stringify(draft.payload)
  )
}

function refused(index: number, field: string, message: string): Refused {
  return { kind: 'refused', problems: [{ index, field, message }] }
}
