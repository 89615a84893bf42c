import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { Day } from '@/lib/domain/quantity/day'
import { writeChange } from './changes'
import type { Db } from './db'
import type { Part } from './generated/client'
import { newId } from './ids'
import { prepared } from './statements'
import { transaction } from './transaction'
import { visibleWell } from './wells'

export type PartRow = Part
export type PartFields = {
  kind: string
  model: string | null
  size: string | null
  fittedOn: Day | null
  warrantyUntil: Day | null
  removedOn: Day | null
  notes: string | null
  /** Others of its kind stand beside it: what a visit fits does not take its place. */
  beside: boolean
}

/**
 * The parts of a well that people wrote down, those not taken out first; empty where the viewer may not see the well.
 * What visits fitted stands beside them in the register: see ./part-register.
 */
export function partsOfWell(db: Db, viewer: Viewer, wellId: string): PartRow[] {
  if (!visibleWell(db, viewer, wellId)) return []
  return prepared<PartRow>(
    db.sqlite,
    'SELECT * FROM "Part" WHERE "wellId" = ? ORDER BY "removedOn" IS NOT NULL, "kind", "fittedOn"',
  ).all(wellId)
}

export type PartWrite = { kind: 'stored'; id: string } | { kind: 'changed-since' } | { kind: 'no-such-well' }

/** Adds a part to a well, or changes the one of that id and version. */
export async function savePart(
  db: Db,
  viewer: Viewer,
  wellId: string,
  existing: { id: string; version: number } | null,
  fields: PartFields,
  at: string,
): Promise<PartWrite> {
  demandFleet(viewer, 'well.edit')
  return transaction(db, () => {
    const { sqlite } = db
    if (!visibleWell(db, viewer, wellId)) return { kind: 'no-such-well' } as const
    const values = [
      fields.kind,
      fields.model,
      fields.size,
      fields.fittedOn,
      fields.warrantyUntil,
      fields.removedOn,
      fields.notes,
      fields.beside ? 1 : 0,
    ]
    const id = existing?.id ?? newId()
    const before = existing
      ? prepared<PartRow>(sqlite, 'SELECT * FROM "Part" WHERE "id" = ? AND "wellId" = ?').get(id, wellId)
      : undefined
    if (existing) {
      const { changes } = prepared(
        sqlite,
        'UPDATE "Part" SET "kind" = ?, "model" = ?, "size" = ?, "fittedOn" = ?, "warrantyUntil" = ?, "removedOn" = ?, "notes" = ?, "beside" = ?, "version" = "version" + 1 WHERE "id" = ? AND "wellId" = ? AND "version" = ?',
      ).run(...values, id, wellId, existing.version)
      if (changes !== 1) return { kind: 'changed-since' } as const
    } else {
      prepared(
        sqlite,
        'INSERT INTO "Part" ("kind","model","size","fittedOn","warrantyUntil","removedOn","notes","beside","id","wellId","version") VALUES (?,?,?,?,?,?,?,?,?,?,1)',
      ).run(...values, id, wellId)
    }
    writeChange(sqlite, viewer, at, {
      action: existing ? 'part changed' : 'part added',
      targetKind: 'part',
      targetId: id,
      wellId,
      before,
      after: fields,
    })
    return { kind: 'stored', id } as const
  })
}
