import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { siteUrl } from './auth'
import { writeChange } from './changes'
import type { Db } from './db'
import type { Plate as PlateRow } from './generated/client'
import { drawCode, tidyCode } from './invitation-code'
import { prepared } from './statements'
import { transaction } from './transaction'
import { visibleWell } from './wells'

export type { PlateRow }

/**
 * Codes printed for lids and pumps. A code is a name of the well and no key: it opens nothing by itself, whoever scans
 * it must be signed in and may see the well anyhow. That is why it is kept in the clear, so that a worn plate can be
 * printed again as it was. It is 80 random bits, so that nobody learns from a guess which codes there are.
 */

/** Every plate of a well, the latest first; none where the viewer may not see the well. */
export function platesOfWell(db: Db, viewer: Viewer, wellId: string): PlateRow[] {
  if (!visibleWell(db, viewer, wellId)) return []
  return prepared<PlateRow>(
    db.sqlite,
    'SELECT * FROM "Plate" WHERE "wellId" = ? ORDER BY "createdAt" DESC, "code"',
  ).all(wellId)
}

/** Every plate of the fleet with its well's label, in order of label. Throws NotAllowed unless the viewer may export. */
export function everyPlate(db: Db, viewer: Viewer): (PlateRow & { label: string })[] {
  demandFleet(viewer, 'export.run')
  return prepared<PlateRow & { label: string }>(
    db.sqlite,
    `SELECT p.*, w."label" FROM "Plate" p JOIN "Well" w ON w."id" = p."wellId" WHERE w."struck" = 0
     ORDER BY w."labelKey", p."createdAt", p."code"`,
  ).all()
}

/** A well with the code that is printed for it; null where it has none that counts. */
export type WellPlate = { wellId: string; label: string; name: string | null; code: string | null }

/** More plates than this are printed in several goes. */
export const PLATES_MAX = 200

/** The wells of those ids that the viewer may see, in their order, each with its newest plate that counts. */
export function wellPlates(db: Db, viewer: Viewer, wellIds: readonly string[]): WellPlate[] {
  return [...new Set(wellIds)].slice(0, PLATES_MAX).flatMap((wellId) => {
    const well = visibleWell(db, viewer, wellId)
    if (!well) return []
    const code = platesOfWell(db, viewer, wellId).find((plate) => plate.revokedAt === null)?.code ?? null
    return [{ wellId, label: well.label, name: well.name, code }]
  })
}

/** Makes a plate for each of the wells that has none; answers how many. Throws NotAllowed unless the viewer may. */
export async function makePlates(
  db: Db,
  viewer: Viewer,
  wellIds: readonly string[],
  at: string,
): Promise<number> {
  demandFleet(viewer, 'plate.edit')
  return transaction(db, () => {
    const bare = wellPlates(db, viewer, wellIds).filter((well) => well.code === null)
    for (const { wellId } of bare) {
      const code = tidyCode(drawCode())
      if (code === null) throw new Error('a code drawn is no code')
      prepared(
        db.sqlite,
        'INSERT INTO "Plate" ("code","wellId","createdAt","createdBy") VALUES (?,?,?,?)',
      ).run(code, wellId, at, viewer.name)
      change(db, viewer, at, wellId, 'plate made', code)
    }
    return bare.length
  })
}

/** Takes a plate back: its code leads nowhere from now on. Answers its well; null where there is none that counts. */
export async function takePlateBack(
  db: Db,
  viewer: Viewer,
  code: string,
  at: string,
): Promise<string | null> {
  demandFleet(viewer, 'plate.edit')
  return transaction(db, () => {
    const plate = plateByCode(db, code)
    if (!plate || plate.revokedAt !== null || !visibleWell(db, viewer, plate.wellId)) return null
    prepared(db.sqlite, 'UPDATE "Plate" SET "revokedAt" = ? WHERE "code" = ?').run(at, plate.code)
    change(db, viewer, at, plate.wellId, 'plate taken back', plate.code)
    return plate.wellId
  })
}

/** The change record is read by more people than need the whole code. */
function change(db: Db, viewer: Viewer, at: string, wellId: string, action: string, code: string): void {
  writeChange(db.sqlite, viewer, at, {
    action,
    targetKind: 'well',
    targetId: wellId,
    wellId,
    after: { plate: `${code.slice(0, 4)}…` },
  })
}

/** The well that a scanned code names; null where there is none for this viewer, whether it exists or not. */
export function wellOfPlate(db: Db, viewer: Viewer, code: string): string | null {
  const plate = plateByCode(db, code)
  if (!plate || plate.revokedAt !== null) return null
  return visibleWell(db, viewer, plate.wellId)?.id ?? null
}

function plateByCode(db: Db, code: string): PlateRow | undefined {
  const tidy = tidyCode(code)
  if (tidy === null) return undefined
  return prepared<PlateRow>(db.sqlite, 'SELECT * FROM "Plate" WHERE "code" = ?').get(tidy)
}

/** What a printed code leads to: the public address of this site and the code. */
export const plateAddress = (code: string): string => `${siteUrl().replace(/\/+$/, '')}/p/${code}`

/** Whether the public address was set: without it a printed code leads to this machine and nowhere else. */
export const hasPublicAddress = (): boolean => Boolean(process.env.WELLROUND_URL)
