import type { Viewer } from '@/lib/access/viewer'
import type { ChainSummary } from '@/lib/domain/logbook/water-summary'
import type { Db } from './db'
import { type DueRow, dueItems } from './due-list'
import type { WellRow } from './rows'
import { openChains } from './well-water'
import { type OwnerContact, wellWithOwner } from './wells'

/** One well on a printed sheet with the duties chosen there. */
export type SheetStop = {
  well: WellRow
  owner: OwnerContact | null
  /** What the household is still warned of. */
  chains: ChainSummary[]
  items: DueRow[]
}

/** More than a day's round has, and about as much as an address can carry. */
export const SHEET_ITEMS_MAX = 200

/** The chosen due items by well, in order of label. Ids that the viewer may not see are left out without a word. */
export function dueSheet(db: Db, viewer: Viewer, ids: readonly string[]): SheetStop[] {
  const stops = new Map<string, SheetStop>()
  for (const item of dueItems(db, viewer, [...new Set(ids)].slice(0, SHEET_ITEMS_MAX))) {
    const stop = stops.get(item.wellId) ?? stopAt(db, viewer, item.wellId)
    if (!stop) continue
    stops.set(item.wellId, stop)
    stop.items.push(item)
  }
  return [...stops.values()]
}

function stopAt(db: Db, viewer: Viewer, wellId: string): SheetStop | null {
  const found = wellWithOwner(db, viewer, wellId)
  return found && { ...found, chains: openChains(db, viewer, wellId), items: [] }
}
