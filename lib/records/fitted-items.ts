import type Database from 'better-sqlite3'
import type { FittedLine } from '@/lib/domain/logbook/fitted'
import { modelKey } from '@/lib/domain/pump'
import type { FittedItem } from './generated/client'
import { prepared } from './statements'

const COLUMNS = [
  'entryId',
  'line',
  'wellId',
  'fittedOn',
  'part',
  'model',
  'modelKey',
  'count',
] as const satisfies readonly (keyof FittedItem)[]

const INSERT = `INSERT INTO "FittedItem" (${COLUMNS.map((column) => `"${column}"`).join(',')})
  VALUES (${COLUMNS.map(() => '?').join(',')})`

/**
 * Keeps the parts that a well's logbook says were fitted beside its standing, so that the shelf is reckoned without
 * reading logbooks. Call within the transaction of the standing; `previous` as in storeStanding.
 */
export function putFitted(
  sqlite: Database.Database,
  wellId: string,
  lines: readonly FittedLine[],
  previous: 'known' | 'none',
): void {
  const rows = lines.map(
    (line): FittedItem => ({
      entryId: line.entryId,
      line: line.line,
      wellId,
      fittedOn: line.on,
      part: line.part,
      model: line.model,
      modelKey: modelKey(line.model),
      count: line.count,
    }),
  )
  if (previous === 'known') {
    const before = prepared<FittedItem>(
      sqlite,
      'SELECT * FROM "FittedItem" WHERE "wellId" = ? ORDER BY "fittedOn","entryId","line"',
    ).all(wellId)
    if (sameRows(before, rows)) return
    prepared(sqlite, 'DELETE FROM "FittedItem" WHERE "wellId" = ?').run(wellId)
  }
  for (const row of rows) prepared(sqlite, INSERT).run(...COLUMNS.map((column) => row[column]))
}

function sameRows(before: readonly FittedItem[], rows: readonly FittedItem[]): boolean {
  if (before.length !== rows.length) return false
  const texts = (some: readonly FittedItem[]) =>
    some.map((row) => JSON.stringify(COLUMNS.map((column) => row[column]))).sort()
  const now = texts(rows)
  return texts(before).every((text, i) => text === now[i])
}

/**
 * The model of the kind of part that is in place at a well: what was fitted last by logbook or register, whichever is
 * the later day; null where neither names one.
 */
export function modelInPlace(sqlite: Database.Database, wellId: string, part: string): string | null {
  const fitted = prepared<{ model: string; fittedOn: string }>(
    sqlite,
    'SELECT "model","fittedOn" FROM "FittedItem" WHERE "wellId" = ? AND "part" = ? AND "model" IS NOT NULL ORDER BY "fittedOn" DESC LIMIT 1',
  ).get(wellId, part)
  const listed = prepared<{ model: string | null; size: string | null; fittedOn: string | null }>(
    sqlite,
    `SELECT "model","size","fittedOn" FROM "Part" WHERE "wellId" = ? AND "kind" = ? AND "removedOn" IS NULL
     AND ("model" IS NOT NULL OR "size" IS NOT NULL) ORDER BY "fittedOn" DESC LIMIT 1`,
  ).get(wellId, part)
  if (listed && (!fitted || (listed.fittedOn ?? '') > fitted.fittedOn)) {
    return [listed.model, listed.size].filter(Boolean).join(', ')
  }
  return fitted?.model ?? null
}
