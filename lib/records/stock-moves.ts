import { z } from 'zod'
import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { PART_KINDS, uuidSchema } from '@/lib/domain/logbook/kinds'
import { modelKey } from '@/lib/domain/pump'
import { type Day, isDay } from '@/lib/domain/quantity/day'
import { writeChange } from './changes'
import type { Db } from './db'
import { prepared } from './statements'
import { itemRow, type StockItemRow, stockItemId } from './stock-items'
import { transaction } from './transaction'

export const STOCK_KINDS = ['received', 'taken', 'counted'] as const
/** More of one part than any shelf of such an outfit holds. */
export const STOCK_COUNT_MAX = 9999

/** One line of the stock book as its writer sends it. `id` is made where the line is made. */
const stockMoveSchema = z
  .object({
    id: uuidSchema,
    part: z.enum(PART_KINDS),
    model: z.string().trim().min(1).max(120).nullable(),
    on: z.string().refine(isDay),
    kind: z.enum(STOCK_KINDS),
    count: z.number().int().min(0).max(STOCK_COUNT_MAX),
    reason: z.string().trim().min(1).max(300).nullable(),
  })
  // Nothing received or taken is no movement; a count of nothing is an empty shelf.
  .refine(({ kind, count }) => kind === 'counted' || count > 0)
export type StockMove = z.infer<typeof stockMoveSchema>

export type StockWrite = { kind: 'stored'; itemId: string } | { kind: 'already'; itemId: string }

/**
 * Writes one line of the stock book; the item is made with its first line. The same line sent twice counts once.
 * Throws  NotAllowed unless the viewer keeps stock; ZodError for a line that no form of ours sends; RangeError for a day
 *         after `today`.
 */
export async function moveStock(
  db: Db,
  viewer: Viewer,
  sent: StockMove,
  at: string,
  today: Day,
): Promise<StockWrite> {
  demandFleet(viewer, 'stock.keep')
  const move = stockMoveSchema.parse(sent)
  if (move.on > today) throw new RangeError(`stock moved on ${move.on}, after ${today}`)
  return transaction(db, () => {
    const { sqlite } = db
    const itemId = stockItemId(move.part, move.model)
    putItem(db, itemId, move.part, move.model)
    const { changes } = prepared(
      sqlite,
      `INSERT INTO "StockEntry" ("id","itemId","movedOn","kind","count","reason","at","authorId","byName")
       VALUES (?,?,?,?,?,?,?,?,?) ON CONFLICT ("id") DO NOTHING`,
    ).run(move.id, itemId, move.on, move.kind, move.count, move.reason, at, viewer.userId, viewer.name)
    if (changes === 0) return { kind: 'already', itemId } as const
    writeChange(sqlite, viewer, at, {
      action: `stock ${move.kind}`,
      targetKind: 'stock',
      targetId: itemId,
      after: move,
    })
    return { kind: 'stored', itemId } as const
  })
}

function putItem(db: Db, id: string, part: string, model: string | null): void {
  prepared(
    db.sqlite,
    `INSERT INTO "StockItem" ("id","part","model","modelKey","version") VALUES (?,?,?,?,1)
     ON CONFLICT ("id") DO NOTHING`,
  ).run(id, part, model, modelKey(model))
}

export type StockRule = { reorderAt: number; upTo: number }
export type StockRuleWrite =
  | { kind: 'stored' }
  /** Somebody else set it since the form was opened; nothing was stored. */
  | { kind: 'changed-since'; current: StockItemRow }
  | { kind: 'no-such-item' }

/** Sets when an item is ordered and up to how many, or takes the rule away. Throws NotAllowed unless the viewer keeps stock. */
export async function setStockRule(
  db: Db,
  viewer: Viewer,
  itemId: string,
  version: number,
  rule: StockRule | null,
  at: string,
): Promise<StockRuleWrite> {
  demandFleet(viewer, 'stock.keep')
  if (rule && !(rule.reorderAt >= 0 && rule.upTo > rule.reorderAt)) {
    throw new RangeError(`reorder at ${rule.reorderAt}, up to ${rule.upTo}`)
  }
  return transaction(db, () => {
    const before = itemRow(db.sqlite, itemId)
    if (!before) return { kind: 'no-such-item' } as const
    if (before.version !== version) return { kind: 'changed-since', current: before } as const
    prepared(
      db.sqlite,
      'UPDATE "StockItem" SET "reorderAt" = ?, "upTo" = ?, "version" = "version" + 1 WHERE "id" = ?',
    ).run(rule?.reorderAt ?? null, rule?.upTo ?? null, itemId)
    writeChange(db.sqlite, viewer, at, {
      action: 'stock rule set',
      targetKind: 'stock',
      targetId: itemId,
      before: { reorderAt: before.reorderAt, upTo: before.upTo },
      after: rule,
    })
    return { kind: 'stored' } as const
  })
}
