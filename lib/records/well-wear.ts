import type { Viewer } from '@/lib/access/viewer'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import { type Equipment, NO_EQUIPMENT } from '@/lib/domain/logbook/equipment'
import { type WearStanding, wearStanding } from '@/lib/domain/logbook/wear-standing'
import { summarizeYield, type YieldSummary } from '@/lib/domain/logbook/yield-summary'
import type { Db } from './db'
import type { WellRow } from './rows'
import { wellYield } from './well-yield'
import type { OwnerContact } from './wells'

/** Everything about what wears at one well, reckoned anew in full. */
export type WellWear = {
  well: WellRow
  owner: OwnerContact | null
  equipment: Equipment
  facts: CurrentFact[]
  wear: WearStanding
  yields: YieldSummary
}

/** Parts that wear, pump and lift of the well of that id; null when there is none for this viewer, whether it exists or not. */
export function wellWear(db: Db, viewer: Viewer, wellId: string): WellWear | null {
  const found = wellYield(db, viewer, wellId)
  if (!found) return null
  const { well, owner, register, facts, standing } = found
  return {
    well,
    owner,
    equipment: register.equipment ?? NO_EQUIPMENT,
    facts,
    wear: wearStanding(register, facts, standing.capacity),
    yields: summarizeYield(standing),
  }
}
