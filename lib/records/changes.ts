import type Database from 'better-sqlite3'
import type { Viewer } from '@/lib/access/viewer'
import { newId } from './ids'
import { prepared } from './statements'

/** One line of the change record: who did what to what, when, before and after. */
export type ChangeLine = {
  action: string
  targetKind:
    | 'well'
    | 'duty'
    | 'part'
    | 'owner'
    | 'visit'
    | 'entry'
    | 'batch'
    | 'setting'
    | 'user'
    | 'invitation'
    | 'mail'
    | 'round'
    | 'stop'
    | 'stock'
    | 'model'
  targetId: string
  wellId?: string | null
  before?: unknown
  after?: unknown
}

const INSERT = `INSERT INTO "Change"
  ("id","at","byUserId","byName","action","targetKind","targetId","wellId","before","after")
  VALUES (?,?,?,?,?,?,?,?,?,?)`

/** Writes one line of the change record, in the transaction that makes the change. */
export function writeChange(sqlite: Database.Database, viewer: Viewer, at: string, line: ChangeLine): void {
  prepared(sqlite, INSERT).run(
    newId(),
    at,
    viewer.userId,
    viewer.name,
    line.action,
    line.targetKind,
    line.targetId,
    line.wellId ?? null,
    line.before === undefined ? null : JSON.stringify(line.before),
    line.after === undefined ? null : JSON.stringify(line.after),
  )
}

export type ChangeRow = {
  id: string
  at: string
  byName: string
  action: string
  targetKind: string
  targetId: string
  before: string | null
  after: string | null
}

/** The newest changes of a well, at most `limit`. The caller has asked whether the viewer may see the well. */
export function changesOfWell(sqlite: Database.Database, wellId: string, limit: number): ChangeRow[] {
  return prepared<ChangeRow>(
    sqlite,
    'SELECT "id","at","byName","action","targetKind","targetId","before","after" FROM "Change" WHERE "wellId" = ? ORDER BY "at" DESC, "id" DESC LIMIT ?',
  ).all(wellId, limit)
}
