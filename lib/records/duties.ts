import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { writeChange } from './changes'
import type { Db } from './db'
import type { DutyFields } from './duty-fields'
import { dutyValues, insertDuty, updateDutyRow } from './register-rows'
import type { DutyRow } from './rows'
import { refreshWell } from './standings'
import { prepared } from './statements'
import { transaction } from './transaction'
import { visibleWell } from './wells'

export type DutyWrite =
  | { kind: 'stored'; id: string }
  | { kind: 'already-there'; message: string }
  | { kind: 'changed-since'; current: DutyRow }
  | { kind: 'no-such-duty' }

/** Gives a well a duty. A retired duty of the same name is taken up again with the new limits. */
export async function addDuty(
  db: Db,
  viewer: Viewer,
  wellId: string,
  fields: DutyFields,
  at: string,
): Promise<DutyWrite> {
  demandFleet(viewer, 'duty.edit')
  return transaction(db, () => {
    if (!visibleWell(db, viewer, wellId)) return { kind: 'no-such-duty' } as const
    const id = addOrRevive(db, viewer, wellId, fields, at)
    if (id === null) {
      return {
        kind: 'already-there',
        message: `This well already has the duty "${fields.name}". Change its limits instead.`,
      } as const
    }
    refreshWell(db.sqlite, wellId)
    return { kind: 'stored', id } as const
  })
}

/**
 * Gives many wells a duty in one step: all of them, or none. Wells that have it already keep
 * theirs as it is. Answers how many were given it and how many had it.
 */
export async function addDutyToWells(
  db: Db,
  viewer: Viewer,
  wellIds: readonly string[],
  fields: DutyFields,
  at: string,
): Promise<{ given: number; had: number; missing: number }> {
  demandFleet(viewer, 'duty.edit')
  return transaction(db, () => {
    const outcome = { given: 0, had: 0, missing: 0 }
    for (const wellId of new Set(wellIds)) {
      if (!visibleWell(db, viewer, wellId)) {
        outcome.missing += 1
        continue
      }
      if (addOrRevive(db, viewer, wellId, fields, at) === null) {
        outcome.had += 1
        continue
      }
      refreshWell(db.sqlite, wellId)
      outcome.given += 1
    }
    return outcome
  })
}

/** Changes a duty's limits or name, or retires it, if nobody else changed it since `version`. */
export async function updateDuty(
  db: Db,
  viewer: Viewer,
  dutyId: string,
  version: number,
  fields: DutyFields,
  retired: boolean,
  at: string,
): Promise<DutyWrite> {
  demandFleet(viewer, 'duty.edit')
  return transaction(db, () => {
    const { sqlite } = db
    const before = visibleDuty(db, viewer, dutyId)
    if (!before) return { kind: 'no-such-duty' } as const
    const namesake = dutyOfKey(db, before.wellId, fields.key)
    if (namesake && namesake.id !== dutyId) {
      return { kind: 'already-there', message: `This well already has the duty "${fields.name}".` } as const
    }
    if (!updateDutyRow(sqlite, dutyId, version, dutyValues(fields), retired)) {
      return { kind: 'changed-since', current: before } as const
    }
    writeChange(sqlite, viewer, at, {
      action: retired ? 'duty retired' : 'duty changed',
      targetKind: 'duty',
      targetId: dutyId,
      wellId: before.wellId,
      before,
      after: fields,
    })
    refreshWell(sqlite, before.wellId)
    return { kind: 'stored', id: dutyId } as const
  })
}

/** A duty's row, or null when there is none for this viewer. */
export function visibleDuty(db: Db, viewer: Viewer, dutyId: string): DutyRow | null {
  const row = prepared<DutyRow>(db.sqlite, 'SELECT * FROM "Duty" WHERE "id" = ?').get(dutyId)
  return row && visibleWell(db, viewer, row.wellId) ? row : null
}

function addOrRevive(db: Db, viewer: Viewer, wellId: string, fields: DutyFields, at: string): string | null {
  const { sqlite } = db
  const known = dutyOfKey(db, wellId, fields.key)
  if (known && !known.retired) return null
  let id: string
  if (known) {
    id = known.id
    updateDutyRow(sqlite, id, known.version, dutyValues(fields), false)
  } else {
    id = insertDuty(sqlite, wellId, dutyValues(fields), null).id
  }
  writeChange(sqlite, viewer, at, {
    action: 'duty added',
    targetKind: 'duty',
    targetId: id,
    wellId,
    before: known,
    after: fields,
  })
  return id
}

function dutyOfKey(db: Db, wellId: string, key: string): DutyRow | null {
  return (
    prepared<DutyRow>(db.sqlite, 'SELECT * FROM "Duty" WHERE "wellId" = ? AND "key" = ?').get(wellId, key) ??
    null
  )
}
