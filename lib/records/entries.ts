import type Database from 'better-sqlite3'
import type { Entry } from '@/lib/domain/logbook/entries'
import type { EntryDraft } from '@/lib/domain/logbook/kinds'
import { type EntryRow, entryOf, type ToldRow } from './rows'
import { prepared } from './statements'

export type Source = 'desk' | 'owner' | 'import' | 'demo'
/** What the server adds to a draft when it takes it in. */
export type Provenance = {
  authorId: string | null
  source: Source
  batchId: string | null
  recordedAt: string
}

const INSERT = `INSERT INTO "Entry"
  ("id","wellId","kind","occurredOn","occurredTime","payload","supersedes","withdraws","visitId","batchId","authorId","byName","source","recordedAt")
  VALUES (?,?,?,?,?,?,?,?,?,?,?,?,?,?) ON CONFLICT ("id") DO NOTHING`

/** Stores one entry; false when its id is already there. Call within a transaction. */
export function insertEntry(sqlite: Database.Database, draft: EntryDraft, from: Provenance): boolean {
  const result = prepared(sqlite, INSERT).run(
    draft.id,
    draft.wellId,
    draft.payload.kind,
    draft.occurredOn,
    draft.occurredTime,
    JSON.stringify(draft.payload),
    draft.supersedes,
    draft.withdraws,
    draft.visitId,
    from.batchId,
    from.authorId,
    draft.byName,
    from.source,
    from.recordedAt,
  )
  return result.changes === 1
}

/** Every entry of a well as stored, in order of day and id. */
export function entryRowsOfWell(sqlite: Database.Database, wellId: string): EntryRow[] {
  return prepared<EntryRow>(
    sqlite,
    'SELECT * FROM "Entry" WHERE "wellId" = ? ORDER BY "occurredOn", "id"',
  ).all(wellId)
}

/** What `entryOf` reads of a line: a rebuild reads every line of the fleet. */
const TOLD =
  '"id","wellId","visitId","occurredOn","occurredTime","payload","supersedes","withdraws","byName","source"'

export function entriesOfWell(sqlite: Database.Database, wellId: string): Entry[] {
  return prepared<ToldRow>(
    sqlite,
    `SELECT ${TOLD} FROM "Entry" WHERE "wellId" = ? ORDER BY "occurredOn", "id"`,
  )
    .all(wellId)
    .map(entryOf)
}

export function entryRow(sqlite: Database.Database, id: string): EntryRow | null {
  return prepared<EntryRow>(sqlite, 'SELECT * FROM "Entry" WHERE "id" = ?').get(id) ?? null
}

export function hasEntry(sqlite: Database.Database, id: string): boolean {
  return prepared(sqlite, 'SELECT 1 FROM "Entry" WHERE "id" = ?').get(id) !== undefined
}

/** The line of a visit on which its photos hang: the first as stored; null where the visit has not arrived. */
export function firstLineOfVisit(sqlite: Database.Database, visitId: string): string | null {
  // Lines of a visit are numbered on from its id: a range of the key, and no search through the logbook.
  const row = prepared<{ id: string }>(
    sqlite,
    'SELECT "id" FROM "Entry" WHERE "visitId" = ? AND "id" >= ? AND "id" < ? ORDER BY "id" LIMIT 1',
  ).get(visitId, visitId.slice(0, 24), `${visitId.slice(0, 24)}g`)
  return row?.id ?? null
}
