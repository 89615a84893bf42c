import Database from 'better-sqlite3'
import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { withdrawnIds } from '@/lib/domain/logbook/entries'
import { type EntryDraft, entryDraftSchema } from '@/lib/domain/logbook/kinds'
import type { RegisterPart } from '@/lib/domain/pump'
import { type BatchCounts, BatchWells } from './batch-wells'
import { writeChange } from './changes'
import type { Db } from './db'
import type { DutyFields } from './duty-fields'
import { entriesOfWell, entryRow, insertEntry, type Source } from './entries'
import { contentId, newId } from './ids'
import { partsNow, writePartChanges } from './part-register'
import { refreshWell, storeStanding } from './standings'
import { prepared } from './statements'
import { exclusively } from './turns'
import { keyOf, type WellFields } from './well-fields'

export type BatchEntry = {
  wellLabel: string
  draft: Omit<EntryDraft, 'wellId'>
  /** What the entry says, as text: equal keys are the same entry, whatever file they come from. */
  contentKey: string[]
  row: number
}

/** Everything one imported file says, checked row by row, ready to be stored as one step. */
export type BatchPlan = {
  what: 'wells' | 'duties' | 'visits' | 'recovery' | 'samples' | 'mixed'
  fileName: string
  fileSha256: string
  /** Where its entries come from; 'import' unless said otherwise. */
  source?: Source
  wells: { fields: WellFields; row: number }[]
  /** Whether wells and duties already in the register take the file's values. */
  updateExisting: boolean
  duties: { wellLabel: string; fields: DutyFields; row: number }[]
  entries: BatchEntry[]
}

export type BatchOutcome =
  | { kind: 'done'; batchId: string | null; counts: BatchCounts }
  | { kind: 'refused'; problems: { row: number; message: string }[] }

/** Rows between two breaths, in which other requests are served and progress is told. */
const BREATH = 400

/**
 * Stores a whole file in one transaction, all or nothing, and reckons the wells it touches.
 *
 * Works on a connection of its own, so that readers meanwhile see the register as it was, and
 * lets other requests breathe between rows; other writers wait their turn. A file that changes
 * nothing leaves no batch. `onProgress` hears how many of `total` steps are done.
 */
export function commitBatch(
  db: Db,
  viewer: Viewer,
  plan: BatchPlan,
  at: string,
  onProgress: (done: number, total: number) => void = () => undefined,
): Promise<BatchOutcome> {
  demandFleet(viewer, 'import.run')
  return exclusively(async () => {
    const sqlite = openWriter(db.file)
    try {
      sqlite.exec('BEGIN IMMEDIATE')
      const outcome = await storePlan(sqlite, viewer, plan, at, onProgress)
      sqlite.exec(outcome.kind === 'done' ? 'COMMIT' : 'ROLLBACK')
      return outcome
    } finally {
      // Closing with a transaction open rolls it back: a failure leaves nothing.
      sqlite.close()
    }
  })
}

/** A connection like the program's own (see ./db), for one long transaction. */
export function openWriter(file: string): Database.Database {
  const sqlite = new Database(file, { fileMustExist: true })
  sqlite.pragma('synchronous = FULL')
  sqlite.pragma('foreign_keys = ON')
  sqlite.pragma('busy_timeout = 5000')
  sqlite.pragma('cache_size = -65536')
  return sqlite
}

async function storePlan(
  sqlite: Database.Database,
  viewer: Viewer,
  plan: BatchPlan,
  at: string,
  onProgress: (done: number, total: number) => void,
): Promise<BatchOutcome> {
  const batchId = newId()
  const wells = new BatchWells(sqlite, viewer, batchId, at, plan.updateExisting)
  const problems: { row: number; message: string }[] = []
  // An entry counts twice: storing it, and its share in the reckoning of its well.
  const total = plan.wells.length + plan.duties.length + 2 * plan.entries.length
  let done = 0
  let breathed = 0
  const breathe = (step = 1): Promise<unknown> | null => {
    done += step
    if (done - breathed < BREATH) return null
    breathed = done
    onProgress(Math.min(done, total), total)
    return new Promise((resolve) => setImmediate(resolve))
  }
  for (const { fields } of plan.wells) {
    wells.putWell(fields)
    const breath = breathe()
    if (breath) await breath
  }
  for (const { wellLabel, fields, row } of plan.duties) {
    if (!wells.putDuty(wellLabel, fields))
      problems.push({ row, message: `There is no well called ${wellLabel}` })
    const breath = breathe()
    if (breath) await breath
  }
  const known = new Map<string, ReadonlySet<string>>()
  const visit = { said: '', id: '' }
  const context: Context = { batchId, at, known, source: plan.source ?? 'import', visit }
  // Well by well, and each reckoned as soon as its entries are in: the entries of one well are all that is held.
  for (const [wellLabel, entries] of byWell(plan.entries)) {
    const wellId = wells.idOf(wellLabel)
    const parts = partsBefore(sqlite, wells, wellId, entries)
    for (const entry of entries) {
      if (wellId === null) problems.push({ row: entry.row, message: `There is no well called ${wellLabel}` })
      else storeEntry(sqlite, viewer, wells, entry, wellId, context)
      const breath = breathe(2)
      if (breath) await breath
    }
    if (wellId !== null && problems.length === 0) {
      reckon(sqlite, wells, wellId)
      if (parts) writePartChanges(sqlite, viewer, at, wellId, parts)
    }
  }
  if (problems.length > 0) return { kind: 'refused', problems }
  for (const wellId of [...wells.touched.keys()]) {
    reckon(sqlite, wells, wellId)
    await breathe(0)
  }
  onProgress(total, total)
  return closeBatch(sqlite, viewer, plan, at, batchId, wells)
}

type Context = {
  batchId: string
  at: string
  /** Ids taken back, by well, once looked up. */
  known: Map<string, ReadonlySet<string>>
  source: Source
  /** The last visit met: its lines mostly follow each other. */
  visit: { said: string; id: string }
}

function visitIdOf(said: string, last: Context['visit']): string {
  if (last.id === '' || last.said !== said) Object.assign(last, { said, id: contentId('visit', said) })
  return last.id
}

/** Stores one entry under the id of its content; one that was taken back before comes back under a new id. */
function storeEntry(
  sqlite: Database.Database,
  viewer: Viewer,
  wells: BatchWells,
  entry: BatchEntry,
  wellId: string,
  context: Context,
): void {
  const provenance = {
    authorId: viewer.userId,
    source: context.source,
    batchId: context.batchId,
    recordedAt: context.at,
  }
  const visitId = visitIdOf(entry.draft.visitId, context.visit)
  for (let again = 0; ; again += 1) {
    const id = contentId(keyOf(entry.wellLabel), ...entry.contentKey, ...(again ? [`again ${again}`] : []))
    const draft = entryDraftSchema.parse({ ...entry.draft, id, visitId, wellId })
    if (insertEntry(sqlite, draft, provenance)) {
      wells.touch(wellId).push(draft)
      wells.counts.entriesAdded += 1
      return
    }
    if (!isWithdrawn(sqlite, id, context.known)) {
      wells.counts.entriesUnchanged += 1
      return
    }
  }
}

function isWithdrawn(
  sqlite: Database.Database,
  id: string,
  known: Map<string, ReadonlySet<string>>,
): boolean {
  const wellId = entryRow(sqlite, id)?.wellId
  if (wellId === undefined) return false
  let gone = known.get(wellId)
  if (!gone) {
    gone = withdrawnIds(entriesOfWell(sqlite, wellId))
    known.set(wellId, gone)
  }
  return gone.has(id)
}

/** A well made by this very batch has no other entries than those just stored: no need to read them back. */
function reckon(sqlite: Database.Database, wells: BatchWells, wellId: string): void {
  const fresh = wells.fresh.get(wellId)
  if (!wells.touched.has(wellId)) return
  if (fresh) storeStanding(sqlite, fresh.row, fresh.duties, wells.touched.get(wellId) ?? [], 'none')
  else refreshWell(sqlite, wellId)
  wells.touched.delete(wellId)
}

/** The parts of a well that was there before the file, where the file fits some; a well that came with it had none. */
function partsBefore(
  sqlite: Database.Database,
  wells: BatchWells,
  wellId: string | null,
  entries: readonly BatchEntry[],
): RegisterPart[] | null {
  if (wellId === null || wells.fresh.has(wellId)) return null
  const fits = entries.some(
    ({ draft: { payload } }) => payload.kind === 'service-done' && payload.parts.length > 0,
  )
  return fits ? partsNow(sqlite, wellId) : null
}

function byWell(entries: readonly BatchEntry[]): Map<string, BatchEntry[]> {
  const groups = new Map<string, BatchEntry[]>()
  for (const entry of entries) {
    const key = keyOf(entry.wellLabel)
    const group = groups.get(key)
    if (group) group.push(entry)
    else groups.set(key, [entry])
  }
  return groups
}

function closeBatch(
  sqlite: Database.Database,
  viewer: Viewer,
  plan: BatchPlan,
  at: string,
  batchId: string,
  wells: BatchWells,
): BatchOutcome {
  const { counts } = wells
  const changed =
    counts.wellsAdded + counts.wellsChanged + counts.dutiesAdded + counts.dutiesChanged + counts.entriesAdded
  if (changed === 0) return { kind: 'done', batchId: null, counts }
  prepared(
    sqlite,
    'INSERT INTO "Batch" ("id","what","fileName","fileSha256","at","byUserId","byName","counts") VALUES (?,?,?,?,?,?,?,?)',
  ).run(
    batchId,
    plan.what,
    plan.fileName,
    plan.fileSha256,
    at,
    viewer.userId,
    viewer.name,
    JSON.stringify({ ...counts, changes: wells.changes }),
  )
  writeChange(sqlite, viewer, at, {
    action: 'file imported',
    targetKind: 'batch',
    targetId: batchId,
    after: { fileName: plan.fileName, ...counts },
  })
  return { kind: 'done', batchId, counts }
}
