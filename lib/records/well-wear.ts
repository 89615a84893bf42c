import type { Viewer } from '@/lib/access/viewer'
import { type CurrentFact, currentFacts } from '@/lib/domain/logbook/entries'
import { type Equipment, NO_EQUIPMENT } from '@/lib/domain/logbook/equipment'
import { type WearStanding, wearStanding } from '@/lib/domain/logbook/wear-standing'
import { yieldStanding } from '@/lib/domain/logbook/yield-record'
import { summarizeYield, type YieldSummary } from '@/lib/domain/logbook/yield-summary'
import type { Db } from './db'
import { entriesOfWell } from './entries'
import { registerWithModels } from './model-rows'
import { reckonSettings } from './reckon-settings'
import type { DutyRow, WellRow } from './rows'
import { prepared } from './statements'
import { type OwnerContact, wellWithOwner } from './wells'

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
  const found = wellWithOwner(db, viewer, wellId)
  if (!found) return null
  const { sqlite } = db
  const duties = prepared<DutyRow>(sqlite, 'SELECT * FROM "Duty" WHERE "wellId" = ?').all(wellId)
  const register = registerWithModels(sqlite, found.well, duties)
  const facts = currentFacts(entriesOfWell(sqlite, wellId))
  const standing = yieldStanding(register, facts, reckonSettings(sqlite).settings)
  return {
    ...found,
    equipment: register.equipment ?? NO_EQUIPMENT,
    facts,
    wear: wearStanding(register, facts, standing.capacity),
    yields: summarizeYield(standing),
  }
}
