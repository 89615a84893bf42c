import type { Day } from '@/lib/domain/quantity/day'

/** One kind of part on the shelf: a cartridge of one size, a brush set of one motor. */
export type PartKey = { part: string; model: string | null }

/** One line of the stock book; nothing in it is ever changed, a wrong count is put right by a count. */
export type StockLine = PartKey & {
  on: Day
  kind: 'received' | 'fitted' | 'counted'
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

const sameKey = (a: PartKey, b: PartKey): boolean => a.part === b.part && a.model === b.model

export type ReorderRule = PartKey & {
  /** Order when the shelf, less what the round takes, falls to this. */
  reorderAt: number
  /** Fill up to this. */
  upTo: number
}

export type Reorder = PartKey & {
  /** Null where the shelf was never counted: count first. */
  shelf: number | null
  needed: number
  order: number | null
  why: string
}

/**
 * What to order before a round: parts whose shelf, less the round's need, is at or under their level, and those that
 * nobody counted. Parts with enough are left out.
 * Throws  RangeError for a rule that fills up to less than its level.
 */
export function reorders(
  rules: readonly ReorderRule[],
  lines: readonly StockLine[],
  needs: readonly (PartKey & { count: number })[],
): Reorder[] {
  return rules.flatMap((rule): Reorder[] => {
    if (!(rule.reorderAt >= 0) || !(rule.upTo > rule.reorderAt)) {
      throw new RangeError(`reorder at ${rule.reorderAt}, up to ${rule.upTo}`)
    }
    const { part, model } = rule
    const needed = needs.filter((need) => sameKey(need, rule)).reduce((sum, need) => sum + need.count, 0)
    const shelf = onShelf(lines, rule)
    if (shelf === null) {
      return [{ part, model, shelf, needed, order: null, why: 'never counted: count the shelf first' }]
    }
    const left = shelf - needed
    if (left > rule.reorderAt) return []
    const why =
      left < 0
        ? `${-left} short for this round`
        : `${left} left after this round, to be ordered at ${rule.reorderAt}`
    return [{ part, model, shelf, needed, order: rule.upTo - left, why }]
  })
}

/** A stop's duty and the parts that it takes, as the pump or housing model says. */
export type StopNeed = { well: string; duty: string; parts: readonly (PartKey & { count: number })[] }

export type PickLine = PartKey & { count: number; wells: string[] }

/** What to put on the truck for a round: one line a part and model, in the order of part, then model. */
export function pickList(needs: readonly StopNeed[]): PickLine[] {
  const lines = new Map<string, PickLine>()
  for (const { well, parts } of needs) {
    for (const { part, model, count } of parts) {
      const key = JSON.stringify([part, model])
      const line = lines.get(key) ?? { part, model, count: 0, wells: [] }
      line.count += count
      if (!line.wells.includes(well)) line.wells.push(well)
      lines.set(key, line)
    }
  }
  return [...lines.values()].sort((a, b) => {
    const [x, y] = [a, b].map((line) => `${line.part}\u0000${line.model ?? ''}`) as [string, string]
    return x < y ? -1 : x > y ? 1 : 0
  })
}
