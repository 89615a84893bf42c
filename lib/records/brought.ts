import type Database from 'better-sqlite3'
import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { writeChange } from './changes'
import type { Db } from './db'
import { prepared } from './statements'
import { transaction } from './transaction'

/** A model or a kind of part that came with an import, and why it stays when that is taken back; null where it leaves. */
export type Brought = {
  what: 'pump model' | 'cartridge model' | 'part'
  id: string
  name: string
  keptFor: string | null
}

type Source = { id: string; at: string }

const TABLES = {
  'pump model': { table: 'PumpModel', column: 'pumpModelId' },
  'cartridge model': { table: 'CartridgeModel', column: 'cartridgeModelId' },
} as const

/**
 * Notes which models and kinds of parts came with an import: all that are there and that no import brought before. For
 * the demo, which fills an empty register.
 */
export function noteBrought(db: Db, batchId: string): Promise<void> {
  return transaction(db, () => {
    for (const table of ['PumpModel', 'CartridgeModel', 'StockItem']) {
      prepared(db.sqlite, `UPDATE "${table}" SET "batchId" = ? WHERE "batchId" IS NULL`).run(batchId)
    }
  })
}

/** What came with an import and what would become of it if that were taken back now. Throws NotAllowed unless the viewer may import. */
export function broughtBy(db: Db, viewer: Viewer, batch: Source): Brought[] {
  demandFleet(viewer, 'import.run')
  return brought(db.sqlite, batch, false)
}

/**
 * Takes out the models and kinds of parts that came with an import and that nothing else uses. Call within the transaction
 * that takes the import back, after its wells have left. A model is deleted, so that its name is free; the lines of a
 * stock book cannot be: the item is cleared up to now, and is there again with the next line that somebody writes.
 */
export function takeBroughtOut(
  sqlite: Database.Database,
  viewer: Viewer,
  batch: Source,
  at: string,
): Brought[] {
  const all = brought(sqlite, batch, true)
  for (const { what, id, keptFor } of all) {
    if (keptFor !== null) continue
    const table = what === 'part' ? 'StockItem' : TABLES[what].table
    const before = prepared(sqlite, `SELECT * FROM "${table}" WHERE "id" = ?`).get(id)
    if (what === 'part') {
      prepared(
        sqlite,
        'UPDATE "StockItem" SET "clearedAt" = ?, "reorderAt" = NULL, "upTo" = NULL, "version" = "version" + 1 WHERE "id" = ?',
      ).run(at, id)
    } else prepared(sqlite, `DELETE FROM "${table}" WHERE "id" = ?`).run(id)
    writeChange(sqlite, viewer, at, {
      action: `${what} left with its import`,
      targetKind: what === 'part' ? 'stock' : 'model',
      targetId: id,
      before,
    })
  }
  return all
}

/** `gone` says that the wells of the import have left already. */
function brought(sqlite: Database.Database, batch: Source, gone: boolean): Brought[] {
  const stays = staying(gone)
  const models = (['pump model', 'cartridge model'] as const).flatMap((what) => {
    const { table, column } = TABLES[what]
    const wells = prepared<{ label: string }>(
      sqlite,
      `SELECT w."label" FROM "Well" w WHERE w."${column}" = @id AND ${stays} ORDER BY w."label" LIMIT 1`,
    )
    return named(sqlite, table, batch.id).map(({ id, name }): Brought => {
      const well = wells.get({ id, batch: batch.id })
      const why = well ? `well ${well.label} names it` : writtenSince(sqlite, 'model', id, batch.at)
      return { what, id, name, keptFor: why }
    })
  })
  const fitted = prepared<{ label: string }>(
    sqlite,
    `SELECT w."label" FROM "FittedItem" f JOIN "StockItem" i ON i."part" = f."part" AND i."modelKey" = f."modelKey"
     JOIN "Well" w ON w."id" = f."wellId" WHERE i."id" = @id AND ${stays} LIMIT 1`,
  )
  const items = prepared<{ id: string; part: string; model: string | null }>(
    sqlite,
    'SELECT "id","part","model" FROM "StockItem" WHERE "batchId" = ? AND "clearedAt" IS NULL ORDER BY "part","modelKey"',
  ).all(batch.id)
  const parts = items.map(({ id, part, model }): Brought => {
    const well = fitted.get({ id, batch: batch.id })
    const why = well ? `it was fitted at well ${well.label}` : writtenSince(sqlite, 'stock', id, batch.at)
    return { what: 'part', id, name: [part, model].filter(Boolean).join(' '), keptFor: why }
  })
  return [...models, ...parts]
}

/** Wells that are in the register when the import is taken back: before it, those that others wrote about count as such. */
const staying = (gone: boolean): string =>
  gone
    ? 'w."struck" = 0'
    : `w."struck" = 0 AND (w."batchId" IS NULL OR w."batchId" <> @batch OR EXISTS (SELECT 1 FROM "Entry" e
       WHERE e."wellId" = w."id" AND (e."batchId" IS NULL OR e."batchId" <> @batch) AND e."kind" <> 'withdrawal'))`

function named(sqlite: Database.Database, table: string, batchId: string): { id: string; name: string }[] {
  return prepared<{ id: string; name: string }>(
    sqlite,
    `SELECT "id","name" FROM "${table}" WHERE "batchId" = ? ORDER BY "nameKey"`,
  ).all(batchId)
}

/** What the change record holds about it from another instant than that of the import. */
function writtenSince(
  sqlite: Database.Database,
  targetKind: 'model' | 'stock',
  id: string,
  at: string,
): string | null {
  const found = prepared<{ byName: string }>(
    sqlite,
    'SELECT "byName" FROM "Change" WHERE "targetKind" = ? AND "targetId" = ? AND "at" <> ? LIMIT 1',
  ).get(targetKind, id, at)
  return found ? `${found.byName} wrote about it since` : null
}
