import type { Entry } from '@/lib/domain/logbook/entries'
import { type Equipment, withModelLimits } from '@/lib/domain/logbook/equipment'
import { payloadSchema } from '@/lib/domain/logbook/kinds'
import type { WellRegister } from '@/lib/domain/logbook/register'
import { supplySideOf } from '@/lib/domain/logbook/supply-facts'
import { CONDITION_KINDS, type Consequence, type Duty } from '@/lib/domain/upkeep/types'
import type { Duty as DutyRow, Entry as EntryRow, Well as WellRow } from './generated/client'

export type { DutyRow, EntryRow, WellRow }

/** The columns of a line that its words are made of. */
export type ToldRow = Pick<
  EntryRow,
  | 'id'
  | 'wellId'
  | 'visitId'
  | 'occurredOn'
  | 'occurredTime'
  | 'payload'
  | 'supersedes'
  | 'withdraws'
  | 'byName'
  | 'source'
>

/** Throws on a payload that no longer has its kind's shape: stored lines were checked on the way in. */
export function entryOf(row: ToldRow): Entry {
  return {
    id: row.id,
    wellId: row.wellId,
    visitId: row.visitId,
    occurredOn: row.occurredOn,
    occurredTime: row.occurredTime,
    payload: payloadSchema.parse(JSON.parse(row.payload)),
    supersedes: row.supersedes,
    withdraws: row.withdraws,
    byName: row.byName,
    ...(row.source === 'owner' ? { fromOwner: true } : {}),
  }
}

/** What the reckoning needs of a well's row, its duties and its equipment; see registerWithModels. */
export function registerOf(well: WellRow, duties: readonly DutyRow[], equipment: Equipment): WellRegister {
  return {
    installedOn: well.installedOn,
    retiredOn: well.struck ? (well.retiredOn ?? '1900-01-01') : well.retiredOn,
    closed:
      well.closedFrom && well.closedTo
        ? { from: well.closedFrom, to: well.closedTo, why: well.closedWhy ?? 'closed season' }
        : null,
    wellDepthM: well.wellDepthM,
    casingBoreM: well.casingBoreM,
    casingOutsideM: well.casingOutsideM,
    pitDiameterM: well.pitDiameterM,
    pitLengthM: well.pitLengthM,
    pitWidthM: well.pitWidthM,
    gravelPorosity: well.gravelPorosity,
    intakeDepthM: well.intakeDepthM,
    demandM3PerS: well.demandM3PerS,
    storageM3: well.storageM3,
    supplySide: supplySideOf(well),
    equipment,
    duties: withModelLimits(duties.filter((duty) => !duty.retired).map(dutyOf), equipment),
  }
}

export function dutyOf(row: DutyRow): Duty & { id: string } {
  return {
    id: row.id,
    key: row.key,
    name: row.name,
    consequence: asConsequence(row.consequence),
    everyMonths: row.everyMonths,
    everyRunS: row.everyRunS,
    everyM3: row.everyM3,
    condition: asCondition(row),
    lastDoneOn: row.lastDoneOn,
  }
}

function asConsequence(text: string): Consequence {
  if (text === 'health' || text === 'supply' || text === 'wear') return text
  throw new Error(`a duty has the consequence "${text}"`)
}

function asCondition(row: DutyRow): Duty['condition'] {
  const kind = CONDITION_KINDS.find((known) => known === row.condition)
  return kind && row.conditionLimitSi !== null ? { kind, limitSi: row.conditionLimitSi } : null
}
