import type Database from 'better-sqlite3'
import { z } from 'zod'
import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { withdrawnIds } from '@/lib/domain/logbook/entries'
import type { RegisterPart } from '@/lib/domain/pump'
import type { Day } from '@/lib/domain/quantity/day'
import type { BatchChange, BatchCounts } from './batch-wells'
import { openWriter } from './batches'
import { takeBroughtOut } from './brought'
import { writeChange } from './changes'
import type { Db } from './db'
import { entriesOfWell, insertEntry } from './entries'
import type { Batch } from './generated/client'
import { newId } from './ids'
import { partsNow, writePartChanges } from './part-register'
import { updateDutyRow, updateWellRow } from './register-rows'
import type { WellRow } from './rows'
import { refreshWell } from './standings'
import { prepared } from './statements'
import { exclusively } from './turns'

export type BatchRow = Batch

/** An import as the pages show it. */
export type BatchSummary = Omit<BatchRow, 'counts'> & { counts: BatchCounts }

/** The imports so far, newest first, at most `limit`. Throws NotAllowed unless the viewer may import. */
export function batchList(db: Db, viewer: Viewer, limit: number): BatchSummary[] {
  demandFleet(viewer, 'import.run')
  return prepared<BatchRow>(db.sqlite, 'SELECT * FROM "Batch" ORDER BY "at" DESC, "id" DESC LIMIT ?')
    .all(limit)
    .map(summaryOf)
}

/** One import; null when there is none. Throws NotAllowed unless the viewer may import. */
export function batchById(db: Db, viewer: Viewer, batchId: string): BatchSummary | null {
  demandFleet(viewer, 'import.run')
  const row = prepared<BatchRow>(db.sqlite, 'SELECT * FROM "Batch" WHERE "id" = ?').get(batchId)
  return row ? summaryOf(row) : null
}

function summaryOf(row: BatchRow): BatchSummary {
  return { ...row, counts: JSON.parse(row.counts) as BatchCounts }
}

/** What taking an import back left in the register. */
export type Undone = { wellsKept: number; rowsKept: number; stayed: string[] }

const undoneSchema = z.object({
  wellsKept: z.number(),
  rowsKept: z.number(),
  // Not known of imports that were taken back before models and shelf went with them.
  stayed: z.array(z.string()).default([]),
})

/** What stayed when an import was taken back, from the change record; null where it was not. Throws as batchList. */
export function undoneOf(db: Db, viewer: Viewer, batchId: string): Undone | null {
  demandFleet(viewer, 'import.run')
  const row = prepared<{ after: string | null }>(
    db.sqlite,
    `SELECT "after" FROM "Change" WHERE "targetKind" = 'batch' AND "targetId" = ? AND "action" = 'import taken back'`,
  ).get(batchId)
  return row?.after ? undoneSchema.parse(JSON.parse(row.after)) : null
}

export type UndoOutcome =
  | {
      kind: 'undone'
      entriesWithdrawn: number
      wellsTakenOut: number
      /** Wells that others have written about since: they stay. */
      wellsKept: number
      /** Wells and duties set back to what they held before the import. */
      rowsRestored: number
      /** Wells and duties that somebody changed after the import: they stay as they are. */
      rowsKept: number
      /** Models and kinds of parts that came with it, by name: those that left, and those that something else uses. */
      left: string[]
      stayed: string[]
    }
  | { kind: 'no-such-batch' }
  | { kind: 'undone-before'; at: string }

/**
 * Takes an import back as one step: a withdrawal for each of its entries, its wells out of the
 * register unless somebody has since written about them, and its changes set back unless somebody
 * has since changed the same row. Nothing is deleted.
 */
export function undoBatch(
  db: Db,
  viewer: Viewer,
  batchId: string,
  at: string,
  today: Day,
): Promise<UndoOutcome> {
  demandFleet(viewer, 'import.run')
  return exclusively(() => {
    const sqlite = openWriter(db.file)
    try {
      return sqlite.transaction(() => undo(sqlite, viewer, batchId, at, today)).immediate()
    } finally {
      sqlite.close()
    }
  })
}

function undo(
  sqlite: Database.Database,
  viewer: Viewer,
  batchId: string,
  at: string,
  today: Day,
): UndoOutcome {
  const batch = prepared<BatchRow>(sqlite, 'SELECT * FROM "Batch" WHERE "id" = ?').get(batchId)
  if (!batch) return { kind: 'no-such-batch' }
  if (batch.undoneAt) return { kind: 'undone-before', at: batch.undoneAt }
  const touched = new Set<string>()
  const parts = partsOfBatch(sqlite, batchId)
  const entriesWithdrawn = withdrawEntries(sqlite, viewer, batch, at, today, touched)
  const { changes } = JSON.parse(batch.counts) as { changes: BatchChange[] }
  const restored = changes.filter((change) => restore(sqlite, change, touched)).length
  retireDuties(sqlite, batchId, touched)
  const wells = takeOutWells(sqlite, batchId, touched)
  prepared(sqlite, 'UPDATE "Batch" SET "undoneAt" = ?, "undoneBy" = ? WHERE "id" = ?').run(
    at,
    viewer.name,
    batchId,
  )
  for (const wellId of touched) refreshWell(sqlite, wellId)
  for (const [wellId, before] of parts) writePartChanges(sqlite, viewer, at, wellId, before)
  const brought = takeBroughtOut(sqlite, viewer, batch, at)
  const outcome = {
    kind: 'undone' as const,
    entriesWithdrawn,
    wellsTakenOut: wells.out,
    wellsKept: wells.kept,
    rowsRestored: restored,
    rowsKept: changes.length - restored,
    left: brought.filter(({ keptFor }) => keptFor === null).map(({ name }) => name),
    stayed: brought.filter(({ keptFor }) => keptFor !== null).map(({ name }) => name),
  }
  writeChange(sqlite, viewer, at, {
    action: 'import taken back',
    targetKind: 'batch',
    targetId: batchId,
    after: outcome,
  })
  return outcome
}

/** The parts of wells that were there before the import and in which it fitted some. */
function partsOfBatch(sqlite: Database.Database, batchId: string): Map<string, RegisterPart[]> {
  const wells = prepared<{ wellId: string }>(
    sqlite,
    `SELECT DISTINCT e."wellId" FROM "Entry" e JOIN "Well" w ON w."id" = e."wellId"
     WHERE e."batchId" = ? AND e."kind" = 'service-done' AND (w."batchId" IS NULL OR w."batchId" <> e."batchId")`,
  ).all(batchId)
  return new Map(wells.map(({ wellId }) => [wellId, partsNow(sqlite, wellId)]))
}

function withdrawEntries(
  sqlite: Database.Database,
  viewer: Viewer,
  batch: BatchRow,
  at: string,
  today: Day,
  touched: Set<string>,
): number {
  const rows = prepared<{ id: string; wellId: string }>(
    sqlite,
    'SELECT "id","wellId" FROM "Entry" WHERE "batchId" = ? ORDER BY "wellId"',
  ).all(batch.id)
  const visitId = newId()
  let gone: ReadonlySet<string> = new Set()
  let gonePlace = ''
  let count = 0
  for (const { id, wellId } of rows) {
    if (wellId !== gonePlace) {
      gone = withdrawnIds(entriesOfWell(sqlite, wellId))
      gonePlace = wellId
    }
    touched.add(wellId)
    if (gone.has(id)) continue
    insertEntry(
      sqlite,
      {
        id: newId(),
        wellId,
        visitId,
        occurredOn: today,
        occurredTime: null,
        byName: viewer.name,
        supersedes: null,
        withdraws: id,
        payload: { kind: 'withdrawal', reason: `Import of ${batch.fileName} taken back` },
      },
      { authorId: viewer.userId, source: 'desk', batchId: null, recordedAt: at },
    )
    count += 1
  }
  return count
}

function restore(sqlite: Database.Database, change: BatchChange, touched: Set<string>): boolean {
  if (change.target === 'well') {
    const { ownerName, ...values } = change.before
    const present = prepared<WellRow>(sqlite, 'SELECT * FROM "Well" WHERE "id" = ?').get(change.id)
    // An import of an earlier version knew fewer columns: those stay as they are.
    const whole = present && { ...present, ...values }
    if (!whole || !updateWellRow(sqlite, change.id, change.version, whole, ownerName)) return false
    touched.add(change.id)
    return true
  }
  const row = prepared<{ wellId: string }>(sqlite, 'SELECT "wellId" FROM "Duty" WHERE "id" = ?').get(
    change.id,
  )
  if (!row || !updateDutyRow(sqlite, change.id, change.version, change.before, false)) return false
  touched.add(row.wellId)
  return true
}

function retireDuties(sqlite: Database.Database, batchId: string, touched: Set<string>): void {
  const duties = prepared<{ id: string; wellId: string }>(
    sqlite,
    'SELECT "id","wellId" FROM "Duty" WHERE "batchId" = ? AND "retired" = 0 AND "version" = 1',
  ).all(batchId)
  for (const { id, wellId } of duties) {
    prepared(sqlite, 'UPDATE "Duty" SET "retired" = 1, "version" = "version" + 1 WHERE "id" = ?').run(id)
    touched.add(wellId)
  }
}

/** A struck well gives its label free, so that the same file can be imported again. */
function takeOutWells(
  sqlite: Database.Database,
  batchId: string,
  touched: Set<string>,
): { out: number; kept: number } {
  const wells = prepared<{ id: string }>(
    sqlite,
    'SELECT "id" FROM "Well" WHERE "batchId" = ? AND "struck" = 0',
  ).all(batchId)
  const foreign = prepared<{ n: number }>(
    sqlite,
    `SELECT COUNT(*) AS n FROM "Entry" WHERE "wellId" = ? AND ("batchId" IS NULL OR "batchId" <> ?) AND "kind" <> 'withdrawal'`,
  )
  let out = 0
  for (const { id } of wells) {
    if ((foreign.get(id, batchId)?.n ?? 0) > 0) continue
    prepared(
      sqlite,
      `UPDATE "Well" SET "struck" = 1, "labelKey" = '~' || "id", "version" = "version" + 1 WHERE "id" = ?`,
    ).run(id)
    prepared(sqlite, 'DELETE FROM "WellWord" WHERE "wellId" = ?').run(id)
    touched.add(id)
    out += 1
  }
  return { out, kept: wells.length - out }
}
