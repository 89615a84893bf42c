import { demandFleet, may } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { Standing } from '@/lib/domain/logbook/appraise'
import type { Equipment } from '@/lib/domain/logbook/equipment'
import { type ChangeRow, changesOfWell, writeChange } from './changes'
import type { Db } from './db'
import { equipmentWithModels, modelIdsFor, modelNamesOf, type NamedModels } from './model-rows'
import { defaultDuties } from './new-well-defaults'
import {
  dutyValues,
  handOver,
  insertDuty,
  insertWell,
  ownerIdFor,
  updateWellRow,
  wellValues,
} from './register-rows'
import type { DutyRow, EntryRow, WellRow } from './rows'
import { noteSecurity } from './security-log'
import { entriesShownTo } from './shown-entries'
import { refreshWell, standingOf } from './standings'
import { prepared } from './statements'
import { transaction } from './transaction'
import { keyOf, type WellFields } from './well-fields'

export type OwnerContact = { id: string; name: string; phone: string | null; email: string | null }

/** One well with everything its page shows. */
export type WellPage = {
  well: WellRow
  owner: OwnerContact | null
  models: NamedModels
  equipment: Equipment
  duties: DutyRow[]
  entries: EntryRow[]
  standing: Standing | null
  changes: ChangeRow[]
}

/** The well of that id with its logbook; null when there is none for this viewer, whether it exists or not. */
export function wellPage(db: Db, viewer: Viewer, wellId: string): WellPage | null {
  const { sqlite } = db
  const found = wellWithOwner(db, viewer, wellId)
  if (!found) return null
  return {
    ...found,
    equipment: equipmentWithModels(sqlite, found.well),
    duties: prepared<DutyRow>(
      sqlite,
      'SELECT * FROM "Duty" WHERE "wellId" = ? AND "retired" = 0 ORDER BY "name"',
    ).all(wellId),
    entries: entriesShownTo(db, viewer, found.well),
    standing: standingShownTo(viewer, standingOf(sqlite, wellId)),
    changes: changesOfWell(sqlite, wellId, 50),
  }
}

/** What is open between outfit and household holds their words, and may hold a former household's: own pages reckon it anew. */
function standingShownTo(viewer: Viewer, standing: Standing | null): Standing | null {
  return standing && viewer.role === 'owner' ? { ...standing, matters: [] } : standing
}

/** A well's row with whom to call about it; null when there is none for this viewer. */
export function wellWithOwner(
  db: Db,
  viewer: Viewer,
  wellId: string,
): { well: WellRow; owner: OwnerContact | null; models: NamedModels } | null {
  const well = visibleWell(db, viewer, wellId)
  return well && { well, owner: ownerOf(db, well), models: modelNamesOf(db.sqlite, well) }
}

function ownerOf(db: Db, well: WellRow): OwnerContact | null {
  if (well.ownerId === null) return null
  return prepared<OwnerContact>(db.sqlite, OWNER_BY_ID).get(well.ownerId) ?? null
}

const OWNER_BY_ID = 'SELECT "id","name","phone","email" FROM "Owner" WHERE "id" = ?'

/** The bare row, or null when there is none for this viewer. */
export function visibleWell(db: Db, viewer: Viewer, wellId: string): WellRow | null {
  const well = prepared<WellRow>(db.sqlite, 'SELECT * FROM "Well" WHERE "id" = ? AND "struck" = 0').get(
    wellId,
  )
  if (well && may(viewer, 'well.see', well.ownerId)) return well
  // One that is not there is noted like one that is not theirs: the two take the same way.
  if (viewer.userId) noteSecurity(db, { what: 'denied', by: viewer.userId, about: `well ${wellId}` })
  return null
}

/** Supply has a form of its own: the well's does not know it, and leaves it. */
type FormFields = Omit<WellFields, 'supply'>

export type WellWrite =
  | { kind: 'stored'; id: string }
  | { kind: 'label-taken'; message: string }
  /** Somebody else changed the well since the form was opened; nothing was stored. */
  | { kind: 'changed-since'; current: WellRow }
  | { kind: 'no-such-well' }

/** Puts a new well in the register, with the duties that the outfit gives every new well. Throws NotAllowed unless the viewer may edit wells. */
export async function createWell(db: Db, viewer: Viewer, fields: FormFields, at: string): Promise<WellWrite> {
  demandFleet(viewer, 'well.edit')
  return transaction(db, () => {
    const { sqlite } = db
    if (labelHolder(db, fields.label)) return labelTaken(fields.label)
    const ownerId = keptContact(db, viewer, ownerIdFor(sqlite, fields), fields, at)
    const named = { ownerId, ...modelIdsFor(sqlite, fields) }
    const values = wellValues({ ...fields, supply: null }, named)
    const row = insertWell(sqlite, values, fields.ownerName, null)
    writeChange(sqlite, viewer, at, {
      action: 'well added',
      targetKind: 'well',
      targetId: row.id,
      wellId: row.id,
      after: values,
    })
    for (const duty of defaultDuties(db)) {
      const given = insertDuty(sqlite, row.id, dutyValues(duty), null)
      writeChange(sqlite, viewer, at, {
        action: 'duty given',
        targetKind: 'duty',
        targetId: given.id,
        wellId: row.id,
        after: duty,
      })
    }
    refreshWell(sqlite, row.id)
    return { kind: 'stored', id: row.id } as const
  })
}

/** Changes a well's register row, if nobody else has since `version`. Throws NotAllowed unless the viewer may. */
export async function updateWell(
  db: Db,
  viewer: Viewer,
  wellId: string,
  version: number,
  fields: FormFields,
  at: string,
): Promise<WellWrite> {
  demandFleet(viewer, 'well.edit')
  return transaction(db, () => {
    const { sqlite } = db
    const before = visibleWell(db, viewer, wellId)
    if (!before) return { kind: 'no-such-well' } as const
    const holder = labelHolder(db, fields.label)
    if (holder && holder !== wellId) return labelTaken(fields.label)
    if (before.version !== version) {
      // Two people who wrote the same have no quarrel.
      if (saysTheSame(db, before, fields)) return { kind: 'stored', id: wellId } as const
      return { kind: 'changed-since', current: before } as const
    }
    const ownerId = keptContact(db, viewer, ownerIdFor(sqlite, fields), fields, at)
    const named = { ownerId, ...modelIdsFor(sqlite, fields) }
    const values = wellValues({ ...fields, supply: before.supply }, named)
    updateWellRow(sqlite, wellId, version, values, fields.ownerName)
    handOver(sqlite, before, values.ownerId, at)
    writeChange(sqlite, viewer, at, {
      action: 'well changed',
      targetKind: 'well',
      targetId: wellId,
      wellId,
      before,
      after: values,
    })
    refreshWell(sqlite, wellId)
    return { kind: 'stored', id: wellId } as const
  })
}

/** Whether a row and its owner hold already what a form states. */
function saysTheSame(db: Db, row: WellRow, fields: FormFields): boolean {
  const owner = ownerOf(db, row)
  const { ownerId, pumpModelId, cartridgeModelId, supply } = row
  const named = { ownerId, pumpModelId, cartridgeModelId }
  const values: Record<string, unknown> = wellValues({ ...fields, supply }, named)
  const models = modelNamesOf(db.sqlite, row)
  const held: Record<string, unknown> = row
  return (
    keyOf(owner?.name ?? '') === keyOf(fields.ownerName ?? '') &&
    keyOf(models.pump ?? '') === keyOf(fields.pumpModel ?? '') &&
    keyOf(models.cartridge ?? '') === keyOf(fields.cartridgeModel ?? '') &&
    (fields.ownerPhone === null || fields.ownerPhone === owner?.phone) &&
    (fields.ownerEmail === null || fields.ownerEmail === owner?.email) &&
    Object.keys(values).every((name) => held[name] === values[name])
  )
}

/**
 * Stores a phone number or email address that the form gives and the owner has otherwise, with a line in the change
 * record: it counts for all wells of that owner. A blank leaves what is there. Answers the owner's id.
 */
function keptContact(
  db: Db,
  viewer: Viewer,
  ownerId: string | null,
  fields: Pick<WellFields, 'ownerPhone' | 'ownerEmail'>,
  at: string,
): string | null {
  if (ownerId === null) return null
  const { sqlite } = db
  const before = prepared<OwnerContact>(sqlite, OWNER_BY_ID).get(ownerId)
  const phone = fields.ownerPhone ?? before?.phone ?? null
  const email = fields.ownerEmail ?? before?.email ?? null
  if (!before || (phone === before.phone && email === before.email)) return ownerId
  prepared(
    sqlite,
    'UPDATE "Owner" SET "phone" = ?, "email" = ?, "version" = "version" + 1 WHERE "id" = ?',
  ).run(phone, email, ownerId)
  writeChange(sqlite, viewer, at, {
    action: 'owner changed',
    targetKind: 'owner',
    targetId: ownerId,
    before,
    after: { ...before, phone, email },
  })
  return ownerId
}

function labelHolder(db: Db, label: string): string | null {
  const row = prepared<{ id: string }>(db.sqlite, 'SELECT "id" FROM "Well" WHERE "labelKey" = ?').get(
    keyOf(label),
  )
  return row?.id ?? null
}

function labelTaken(label: string): WellWrite {
  return {
    kind: 'label-taken',
    message: `Another well is already called ${label.trim()}. Give this one another label.`,
  }
}
