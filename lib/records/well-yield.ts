import type { Viewer } from '@/lib/access/viewer'
import { type CurrentFact, currentFacts } from '@/lib/domain/logbook/entries'
import type { WellRegister } from '@/lib/domain/logbook/register'
import { yieldStanding } from '@/lib/domain/logbook/yield-record'
import type { YieldStanding } from '@/lib/domain/yield/decline/types'
import type { Db } from './db'
import { entriesOfWell } from './entries'
import { registerWithModels } from './model-rows'
import { reckonSettings } from './reckon-settings'
import type { DutyRow, WellRow } from './rows'
import { prepared } from './statements'
import { type OwnerContact, wellWithOwner } from './wells'

/** Everything about one well's yield, reckoned anew in full: lists keep a summary only. */
export type WellYield = {
  well: WellRow
  owner: OwnerContact | null
  register: WellRegister
  facts: CurrentFact[]
  standing: YieldStanding
  falseAlarmShare: number
}

/** The yield of the well of that id; null when there is none for this viewer, whether it exists or not. */
export function wellYield(db: Db, viewer: Viewer, wellId: string): WellYield | null {
  const found = wellWithOwner(db, viewer, wellId)
  if (!found) return null
  const { sqlite } = db
  const duties = prepared<DutyRow>(sqlite, 'SELECT * FROM "Duty" WHERE "wellId" = ?').all(wellId)
  const register = registerWithModels(sqlite, found.well, duties)
  const facts = currentFacts(entriesOfWell(sqlite, wellId))
  const { settings } = reckonSettings(sqlite)
  return {
    ...found,
    register,
    facts,
    standing: yieldStanding(register, facts, settings),
    falseAlarmShare: settings.falseAlarmShare,
  }
}
