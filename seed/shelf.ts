import { OUTFIT } from '@/lib/access/viewer'
import { addDays, type Day } from '@/lib/domain/quantity/day'
import type { Db } from '@/lib/records/db'
import { newId } from '@/lib/records/ids'
import { stockItemId } from '@/lib/records/stock-items'
import { moveStock, type StockMove, setStockRule } from '@/lib/records/stock-moves'
import { SUN_PUMP } from './equipment'

type Shelf = Pick<StockMove, 'part' | 'model'> & {
  counted: number
  daysAgo: number
  rule: { reorderAt: number; upTo: number } | null
}

/** The invented shelf: too few cartridges of one size, lamps at their level, valves enough, a pump nobody set a level for. */
const SHELF: readonly Shelf[] = [
  { part: 'cartridge', model: '20 in, 5 micron', counted: 5, daysAgo: 12, rule: { reorderAt: 6, upTo: 24 } },
  {
    part: 'cartridge',
    model: '10 in, 20 micron',
    counted: 9,
    daysAgo: 12,
    rule: { reorderAt: 6, upTo: 30 },
  },
  { part: 'o-rings', model: 'housing, 4 in', counted: 60, daysAgo: 12, rule: { reorderAt: 10, upTo: 60 } },
  { part: 'brushes', model: 'brush set BS-24', counted: 3, daysAgo: 40, rule: { reorderAt: 2, upTo: 8 } },
  { part: 'lamp', model: '40 W, 33 in', counted: 2, daysAgo: 40, rule: { reorderAt: 2, upTo: 6 } },
  { part: 'check valve', model: '1¼ in brass', counted: 4, daysAgo: 90, rule: { reorderAt: 1, upTo: 4 } },
  { part: 'pump', model: SUN_PUMP, counted: 1, daysAgo: 90, rule: null },
]

/** Fills the demo's shelf: counts some days back, and what came in and was thrown away since. */
export async function fillDemoShelf(db: Db, at: string, today: Day): Promise<void> {
  const viewer = { ...OUTFIT, name: 'Maren' }
  for (const { part, model, counted, daysAgo, rule } of SHELF) {
    const on = addDays(today, -daysAgo)
    const line = { id: newId(), part, model, on, kind: 'counted' as const, count: counted, reason: null }
    await moveStock(db, viewer, line, at, today)
    if (rule) await setStockRule(db, viewer, stockItemId(part, model), 1, rule, at)
  }
  const more: readonly Omit<StockMove, 'id' | 'on'>[] = [
    { part: 'cartridge', model: '20 in, 5 micron', kind: 'received', count: 2, reason: 'part of an order' },
    { part: 'o-rings', model: 'housing, 4 in', kind: 'taken', count: 3, reason: 'perished in the box' },
  ]
  for (const move of more) {
    await moveStock(db, viewer, { ...move, id: newId(), on: addDays(today, -3) }, at, today)
  }
}
