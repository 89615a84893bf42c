import { may } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { reckon } from '@/lib/domain/logbook/appraise'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import { type TakenBack, takenBack } from '@/lib/domain/logbook/taken-back'
import { positiveFor } from '@/lib/domain/logbook/water-record'
import type { ChainSummary } from '@/lib/domain/logbook/water-summary'
import type { WaterSettings, WaterStanding } from '@/lib/domain/water/appraise'
import type { Db } from './db'
import { logbookOf } from './logbook-of-well'
import { registerWithModels } from './model-rows'
import { reckonSettings } from './reckon-settings'
import { type DutyRow, entryOf, type WellRow } from './rows'
import { entriesShownTo } from './shown-entries'
import { standingOf } from './standings'
import { prepared } from './statements'
import { type OwnerContact, visibleWell, wellWithOwner } from './wells'

/** A well's water in full: what is stored with the well is a summary of it. */
export type WellWater = {
  well: WellRow
  owner: OwnerContact | null
  water: WaterStanding
  facts: CurrentFact[]
  /** The limits and rules that it was judged by. */
  settings: WaterSettings
  /** Positives that were withdrawn or corrected away: told, so that no notice ends unseen. */
  takenBack: TakenBack[]
  /** Whether this viewer may end a chain without clear samples. */
  mayClose: boolean
}

/** Everything reckoned about the water of one well; null when there is no such well for this viewer. */
export function wellWater(db: Db, viewer: Viewer, wellId: string): WellWater | null {
  const { sqlite } = db
  const found = wellWithOwner(db, viewer, wellId)
  if (!found) return null
  const duties = prepared<DutyRow>(sqlite, 'SELECT * FROM "Duty" WHERE "wellId" = ?').all(wellId)
  const rows = entriesShownTo(db, viewer, found.well)
  const { visits, facts } = logbookOf(rows)
  const { settings } = reckonSettings(sqlite)
  return {
    ...found,
    water: reckon(registerWithModels(sqlite, found.well, duties), rows.map(entryOf), settings).water,
    facts,
    takenBack: takenBack(visits, (sheet, id) => positiveFor(sheet, id, settings)),
    settings: settings.water,
    mayClose: may(viewer, 'chain.close', found.well.ownerId),
  }
}

/** The open chains of a well, the one that matters most first; none where there is no such well for this viewer. */
export function openChains(db: Db, viewer: Viewer, wellId: string): ChainSummary[] {
  if (!visibleWell(db, viewer, wellId)) return []
  return standingOf(db.sqlite, wellId)?.water.chains ?? []
}
