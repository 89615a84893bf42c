import type { Day } from '@/lib/domain/quantity/day'

/** One kind of part on the shelf: a cartridge of one size, a brush set of one motor. */
export type PartKey = { part: string; model: string | null }

/** One line of the stock book; nothing in it is ever changed, a wrong count is put right by a count. */
export type StockLine = PartKey & {
  on: Day
  /** `fitted` comes from a well's logbook; `taken` left in some other way. */
  kind: 'received' | 'fitted' | 'taken' | 'counted'
  count: number
}

/**
 * What is on the shelf; null where it was never counted and nothing was ever received: unknown is not zero.
 *
 * Shape   lines in the order in which they were written; a count tells the whole shelf on that day, and lines of days
 *         before it change nothing any more, whenever they were written.
 * Answer  may be negative: more were fitted than the book knew of, and somebody should count.
 */
export function onShelf(lines: readonly StockLine[], key: PartKey): number | null {
  const own = lines.filter((line) => sameKey(line, key))
  const counted = own.filter((line) => line.kind === 'counted')
  const lastDay =
    counted
      .map((line) => line.on)
      .sort()
      .at(-1) ?? ''
  const base = counted.findLast((line) => line.on === lastDay)
  if (!base && !own.some((line) => line.kind === 'received')) return null
  const at = base ? own.lastIndexOf(base) : -1
  // On the day of the count itself only what was written after it has moved.
  return own.reduce((sum, line, i) => {
    if (line.kind === 'counted' || line.on < lastDay || (line.on === lastDay && i < at)) return sum
    return sum + (line.kind === 'received' ? line.count : -line.count)
  }, base?.count ?? 0)
}

/** What makes two models the same: case and spacing do not count; empty where none is known. */
export function modelKey(model: string | null): string {
  return (model ?? '').normalize('NFKC').trim().replace(/\s+/g, ' ').toLowerCase()
}

const sameKey = (a: PartKey, b: PartKey): boolean =>
  a.part === b.part && modelKey(a.model) === modelKey(b.model)

/** When a part is ordered, and up to how many the shelf is then filled. */
export type ReorderRule = { reorderAt: number; upTo: number }

export type ShelfStanding = {
  kind: 'count first' | 'short' | 'order' | 'enough' | 'no level'
  /** On the shelf after what is needed; null where the shelf is not known. */
  left: number | null
  /** How many to order; null where that cannot be said, 0 where none. */
  order: number | null
  why: string
}

/**
 * How one item stands: what is on the shelf (null: never counted), less what is needed, against its rule.
 *
 * Answer  'count first' for a shelf that nobody counted, or from which more was fitted than the book knew of.
 * Throws  RangeError for a rule that fills up to less than its level.
 */
export function shelfStanding(shelf: number | null, needed: number, rule: ReorderRule | null): ShelfStanding {
  if (rule && !(rule.reorderAt >= 0 && rule.upTo > rule.reorderAt)) {
    throw new RangeError(`reorder at ${rule.reorderAt}, up to ${rule.upTo}`)
  }
  if (shelf === null) {
    return { kind: 'count first', left: null, order: null, why: 'never counted' }
  }
  if (shelf < 0) {
    return {
      kind: 'count first',
      left: null,
      order: null,
      why: `${-shelf} more fitted than the book knew of`,
    }
  }
  const left = shelf - needed
  if (left < 0) {
    return { kind: 'short', left, order: (rule?.upTo ?? 0) - left, why: `${-left} short for what is due` }
  }
  if (rule === null)
    return { kind: 'no level', left, order: 0, why: `${left} left after what is due; set when to order` }
  if (left > rule.reorderAt) return { kind: 'enough', left, order: 0, why: `${left} left after what is due` }
  return {
    kind: 'order',
    left,
    order: rule.upTo - left,
    why: `${left} left after what is due, to be ordered at ${rule.reorderAt}`,
  }
}
