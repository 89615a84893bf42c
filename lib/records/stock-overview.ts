import type { Viewer } from '@/lib/access/viewer'
import { type ShelfStanding, shelfStanding } from '@/lib/domain/pump'
import type { Day } from '@/lib/domain/quantity/day'
import type { Db } from './db'
import { neededUntil, type PickLine } from './stock'
import { type ShelfItem, shelf } from './stock-items'

/** One kind of part: what is there, what the duties due by a day use up, and what to do about it. */
export type StockLine = {
  part: string
  model: string | null
  /** Null for a part that is needed and that the stock book does not have. */
  item: ShelfItem | null
  needed: number
  /** How many to have along in case, besides. */
  inCase: number
  wells: { id: string; label: string }[]
  standing: ShelfStanding
}

const ORDER: readonly ShelfStanding['kind'][] = ['short', 'order', 'count first', 'no level', 'enough']

/**
 * The whole shelf against what the duties due up to a day use up, what lacks first. Parts that are only taken along in
 * case, and that the stock book does not have, are left out.
 * Throws  NotAllowed unless the viewer keeps stock.
 */
export function stockOverview(db: Db, viewer: Viewer, until: Day): StockLine[] {
  const needs = neededUntil(db, viewer, until)
  const items = shelf(db, viewer)
  const known = items.map((item) =>
    lineOf(
      item,
      needs.filter(({ itemId }) => itemId === item.id),
    ),
  )
  const unknown = needs
    .filter(({ itemId, use }) => itemId === null && use === 'used')
    .map(
      (need): StockLine => ({
        part: need.part,
        model: need.model,
        item: null,
        needed: need.count,
        inCase: 0,
        wells: need.wells,
        standing: shelfStanding(null, need.count, null),
      }),
    )
  return [...known, ...unknown].sort(
    (a, b) =>
      ORDER.indexOf(a.standing.kind) - ORDER.indexOf(b.standing.kind) || compare(nameOf(a), nameOf(b)),
  )
}

function lineOf(item: ShelfItem, needs: readonly PickLine[]): StockLine {
  const used = needs.find(({ use }) => use === 'used')
  const needed = used?.count ?? 0
  const { reorderAt, upTo } = item
  const rule = reorderAt !== null && upTo !== null ? { reorderAt, upTo } : null
  return {
    part: item.part,
    model: item.model,
    item,
    needed,
    inCase: needs.find(({ use }) => use === 'in case')?.count ?? 0,
    wells: used?.wells ?? [],
    standing: shelfStanding(item.shelf, needed, rule),
  }
}

const nameOf = ({ part, model }: StockLine) => `${part}\u0000${model ?? ''}`
const compare = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0)
