import type Database from 'better-sqlite3'
import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { modelKey, onShelf, type StockLine } from '@/lib/domain/pump'
import type { Day } from '@/lib/domain/quantity/day'
import type { Db } from './db'
import type { StockItem } from './generated/client'
import { contentId } from './ids'
import { prepared } from './statements'

export type StockItemRow = StockItem

/** One kind of part with what is on the shelf: null where nobody counted and nothing came in. */
export type ShelfItem = StockItemRow & { shelf: number | null; countedOn: Day | null }

/** One line of an item's book: a movement, or a part that a visit put into a well. */
export type StockBookLine = {
  id: string
  on: Day
  kind: StockLine['kind']
  count: number
  reason: string | null
  byName: string | null
  /** The well that took it; null for movements of the shelf itself. */
  well: { id: string; label: string } | null
  /** Whether it counts in what is on the shelf now: lines before the last count do not. */
  counts: boolean
}

/** The id of the item of that part and model: the same on every device. */
export const stockItemId = (part: string, model: string | null): string =>
  contentId('stock', part, modelKey(model))

/** An item that left with its import is there again once somebody writes a line of its book. */
const IS_THERE = `(i."clearedAt" IS NULL OR EXISTS
  (SELECT 1 FROM "StockEntry" e WHERE e."itemId" = i."id" AND e."at" > i."clearedAt"))`

/** Every item by part and model with what is on the shelf. Throws NotAllowed unless the viewer keeps stock. */
export function shelf(db: Db, viewer: Viewer): ShelfItem[] {
  demandFleet(viewer, 'stock.keep')
  return prepared<StockItemRow>(
    db.sqlite,
    `SELECT * FROM "StockItem" i WHERE ${IS_THERE} ORDER BY "part","modelKey"`,
  )
    .all()
    .map((item) => withShelf(db.sqlite, item))
}

/** Every model and size of the stock book, to be offered where one is typed. Throws as shelf. */
export function stockModels(db: Db, viewer: Viewer): string[] {
  demandFleet(viewer, 'stock.keep')
  return prepared<{ model: string }>(
    db.sqlite,
    `SELECT DISTINCT "model" FROM "StockItem" i WHERE "model" IS NOT NULL AND ${IS_THERE} ORDER BY "modelKey"`,
  )
    .all()
    .map(({ model }) => model)
}

/** One item, or null where there is none of that id. Throws NotAllowed unless the viewer keeps stock. */
export function shelfItem(db: Db, viewer: Viewer, itemId: string): ShelfItem | null {
  demandFleet(viewer, 'stock.keep')
  const item = itemRow(db.sqlite, itemId)
  return item && withShelf(db.sqlite, item)
}

/** The bare row, or null. The caller has asked whether the viewer may. */
export function itemRow(sqlite: Database.Database, itemId: string): StockItemRow | null {
  return (
    prepared<StockItemRow>(sqlite, `SELECT * FROM "StockItem" i WHERE "id" = ? AND ${IS_THERE}`).get(
      itemId,
    ) ?? null
  )
}

function withShelf(sqlite: Database.Database, item: StockItemRow): ShelfItem {
  const since = lastCount(sqlite, item)
  const lines = bookRows(sqlite, item, since ?? '').map(({ on, kind, count }) => ({
    part: item.part,
    model: item.model,
    on,
    kind,
    count,
  }))
  return { ...item, shelf: onShelf(lines, item), countedOn: since }
}

function lastCount(sqlite: Database.Database, { id, clearedAt }: StockItemRow): Day | null {
  return (
    prepared<{ on: string | null }>(
      sqlite,
      'SELECT MAX("movedOn") AS "on" FROM "StockEntry" WHERE "itemId" = ? AND "kind" = \'counted\' AND "at" > ?',
    ).get(id, clearedAt ?? '')?.on ?? null
  )
}

/** An item's whole book, the newest first. Throws NotAllowed unless the viewer keeps stock. */
export function stockBook(db: Db, viewer: Viewer, item: StockItemRow, limit: number): StockBookLine[] {
  demandFleet(viewer, 'stock.keep')
  const since = lastCount(db.sqlite, item)
  const rows = bookRows(db.sqlite, item, '')
  const base = rows.findLastIndex((row) => row.kind === 'counted' && row.on === since)
  return rows
    .map(({ at: _, wellId, label, ...row }, i) => ({
      ...row,
      well: wellId !== null && label !== null ? { id: wellId, label } : null,
      counts: since === null || row.on > since || (row.on === since && i >= base),
    }))
    .sort((a, b) => (a.on < b.on ? 1 : a.on > b.on ? -1 : 0))
    .slice(0, limit)
}

type BookRow = Omit<StockBookLine, 'counts' | 'well'> & {
  at: string
  wellId: string | null
  label: string | null
}

/** Movements and fitted parts from a day on, in the order in which they were written down. */
function bookRows(sqlite: Database.Database, item: StockItemRow, from: Day): BookRow[] {
  const moved = prepared<BookRow>(
    sqlite,
    `SELECT "id", "movedOn" AS "on", "kind", "count", "reason", "byName", "at", NULL AS "wellId", NULL AS "label"
     FROM "StockEntry" WHERE "itemId" = ? AND "movedOn" >= ? AND "at" > ?`,
  ).all(item.id, from, item.clearedAt ?? '')
  const fitted = prepared<BookRow>(
    sqlite,
    `SELECT f."entryId" || ' ' || f."line" AS "id", f."fittedOn" AS "on", 'fitted' AS "kind", f."count",
     NULL AS "reason", e."byName", e."recordedAt" AS "at", f."wellId", w."label"
     FROM "FittedItem" f JOIN "Entry" e ON e."id" = f."entryId" JOIN "Well" w ON w."id" = f."wellId"
     WHERE f."part" = ? AND f."modelKey" = ? AND f."fittedOn" >= ?`,
  ).all(item.part, item.modelKey, from)
  return [...moved, ...fitted].sort((a, b) => compare(a.at, b.at) || compare(a.id, b.id))
}

const compare = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0)

export type StockMoveLine = {
  part: string
  model: string | null
  on: Day
  kind: string
  count: number
  reason: string | null
  byName: string
}

/** Every movement of every item, by part, model and day. Throws NotAllowed unless the viewer keeps stock. */
export function allMoves(db: Db, viewer: Viewer): StockMoveLine[] {
  demandFleet(viewer, 'stock.keep')
  return prepared<StockMoveLine>(
    db.sqlite,
    `SELECT i."part", i."model", e."movedOn" AS "on", e."kind", e."count", e."reason", e."byName"
     FROM "StockEntry" e JOIN "StockItem" i ON i."id" = e."itemId"
     WHERE e."at" > COALESCE(i."clearedAt", '')
     ORDER BY i."part", i."modelKey", e."movedOn", e."at", e."id"`,
  ).all()
}
