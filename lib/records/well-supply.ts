import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import { NO_EQUIPMENT } from '@/lib/domain/logbook/equipment'
import { pumpStanding } from '@/lib/domain/logbook/pump-standing'
import type { WellRegister } from '@/lib/domain/logbook/register'
import {
  type SupplyFacts,
  type SupplySide,
  supplyFactsOf,
  supplySideOf,
  supplyText,
  supplyTexts,
} from '@/lib/domain/logbook/supply-facts'
import { type SupplyBasis, supplyBasis } from '@/lib/domain/logbook/supply-plan'
import type { Day } from '@/lib/domain/quantity/day'
import { writeChange } from './changes'
import type { Db } from './db'
import type { WellRow } from './rows'
import { refreshWell, standingOf } from './standings'
import { prepared } from './statements'
import { transaction } from './transaction'
import { wellYield } from './well-yield'
import { type OwnerContact, visibleWell } from './wells'

/** Everything that the supply page of one well rests on, reckoned anew. */
export type WellSupply = {
  well: WellRow
  owner: OwnerContact | null
  /** Null where nobody stated what drives the pump. */
  side: SupplySide | null
  /** The year from `from` on; null without facts. */
  basis: SupplyBasis | null
  /** How much more the pump gave when new; null where that is not known. */
  newPumpOverNow: number | null
  /** The day on which measured brushes reach their least length; null where no measure says. */
  brushesOn: Day | null
}

/** The supply of the well of that id from a day on; null when there is none for this viewer, whether it exists or not. */
export function wellSupply(db: Db, viewer: Viewer, wellId: string, from: Day): WellSupply | null {
  const found = wellYield(db, viewer, wellId)
  if (!found) return null
  const { well, owner, register, facts, standing } = found
  const side = supplySideOf(well)
  return {
    well,
    owner,
    side,
    basis: side && supplyBasis(register, side, facts, standing, from),
    newPumpOverNow: pumpLoss(register, facts),
    brushesOn: brushesOn(db, wellId),
  }
}

/** Full readings first and now, of one pump; a pump that gives more than at first has lost nothing. */
function pumpLoss(register: WellRegister, facts: readonly CurrentFact[]): number | null {
  const { reference, now } = pumpStanding(facts, register.equipment ?? NO_EQUIPMENT, register.installedOn)
  return reference && now ? Math.max(1, reference.flowM3PerS / now.flowM3PerS) : null
}

function brushesOn(db: Db, wellId: string): Day | null {
  const limits = standingOf(db.sqlite, wellId)?.duties.flatMap((duty) =>
    /brush/.test(duty.key)
      ? duty.limits.filter(({ basis, due }) => basis === 'condition' && due !== null)
      : [],
  )
  return limits?.map(({ due }) => due).sort()[0] ?? null
}

export type SupplyWrite =
  | { kind: 'stored' }
  /** Somebody else changed the well since the form was opened; nothing was stored. */
  | { kind: 'changed-since'; current: WellRow }
  | { kind: 'no-such-well' }

/**
 * Stores what drives a well's pump and what water is asked for, or takes it away, if nobody else has changed the well since
 * `version`; then reckons the well anew. Throws NotAllowed unless the viewer may edit wells; ZodError for facts that no form
 * of ours states.
 */
export async function saveSupply(
  db: Db,
  viewer: Viewer,
  wellId: string,
  version: number,
  facts: SupplyFacts | null,
  at: string,
): Promise<SupplyWrite> {
  demandFleet(viewer, 'well.edit')
  const text = facts && supplyText(facts)
  return transaction(db, () => {
    const { sqlite } = db
    const before = visibleWell(db, viewer, wellId)
    if (!before) return { kind: 'no-such-well' } as const
    if (before.version !== version) return { kind: 'changed-since', current: before } as const
    prepared(sqlite, 'UPDATE "Well" SET "supply" = ?, "version" = "version" + 1 WHERE "id" = ?').run(
      text,
      wellId,
    )
    writeChange(sqlite, viewer, at, {
      action: facts ? 'supply stated' : 'supply taken away',
      targetKind: 'well',
      targetId: wellId,
      wellId,
      before: supplyTexts(supplyFactsOf(before.supply)),
      after: supplyTexts(facts),
    })
    refreshWell(sqlite, wellId)
    return { kind: 'stored' } as const
  })
}
