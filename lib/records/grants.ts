import { demandFleet, may } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { LogVisit } from '@/lib/domain/logbook/history'
import type { Day } from '@/lib/domain/quantity/day'
import { writeChange } from './changes'
import type { Db } from './db'
import { logbookOf } from './logbook-of-well'
import { ofHouseholds } from './of-households'
import { entriesShownTo } from './shown-entries'
import { prepared } from './statements'
import { transaction } from './transaction'

/** What a former household may still read of a well that was sold. */
export type GrantRow = {
  id: string
  wellId: string
  ownerId: string
  household: string
  /** As the well was called when it was sold: its new name is the new household's. */
  called: string
  since: string | null
  upTo: Day
  createdAt: string
}

const OPEN = `SELECT g."id", g."wellId", g."ownerId", o."name" AS "household", g."called", g."since", g."upTo", g."createdAt"
  FROM "Grant" g JOIN "Well" w ON w."id" = g."wellId" JOIN "Owner" o ON o."id" = g."ownerId"
  WHERE g."revokedAt" IS NULL AND w."struck" = 0`

/** The wells that the viewer's households held once and may still read about; none for everybody else. */
export function pastWells(db: Db, viewer: Viewer): GrantRow[] {
  if (viewer.role !== 'owner' || viewer.ownerIds.length === 0) return []
  const own = ofHouseholds('g."ownerId"', viewer.ownerIds)
  return prepared<GrantRow>(db.sqlite, `${OPEN} AND ${own.sql} ORDER BY g."called", g."id"`).all(
    ...own.values,
  )
}

/**
 * The logbook of a well as it stood when it was sold, up to the granted day; null where nothing is granted to this viewer,
 * whether the well exists or not. Nothing that was reckoned is told: it would speak of later days.
 */
export function pastWell(
  db: Db,
  viewer: Viewer,
  wellId: string,
): { grant: GrantRow; visits: LogVisit[] } | null {
  const grant = pastWells(db, viewer).find((row) => row.wellId === wellId)
  if (!grant || !may(viewer, 'past.see', grant.ownerId)) return null
  const rows = entriesShownTo(db, viewer, { id: wellId, heldSince: grant.since }).filter(
    (row) => row.occurredOn <= grant.upTo && row.recordedAt <= grant.createdAt,
  )
  // A correction may move a line beyond the day: it is read as it stands, and left out then.
  const visits = logbookOf(rows).visits.filter((visit) => visit.on <= grant.upTo)
  return { grant, visits }
}

/** Who may still read about a well after its sale. Throws NotAllowed unless the viewer may edit wells. */
export function grantsOfWell(db: Db, viewer: Viewer, wellId: string): GrantRow[] {
  demandFleet(viewer, 'well.edit')
  return prepared<GrantRow>(db.sqlite, `${OPEN} AND g."wellId" = ? ORDER BY g."id"`).all(wellId)
}

/** Takes back what was granted, from the next request on. Throws NotAllowed unless the viewer may edit wells. */
export async function revokeGrant(
  db: Db,
  viewer: Viewer,
  grantId: string,
  at: string,
): Promise<'done' | 'not-open'> {
  demandFleet(viewer, 'well.edit')
  return transaction(db, () => {
    const row = prepared<GrantRow>(db.sqlite, `${OPEN} AND g."id" = ?`).get(grantId)
    if (!row) return 'not-open'
    prepared(db.sqlite, 'UPDATE "Grant" SET "revokedAt" = ? WHERE "id" = ?').run(at, grantId)
    writeChange(db.sqlite, viewer, at, {
      action: 'reading taken back',
      targetKind: 'well',
      targetId: row.wellId,
      wellId: row.wellId,
      before: { ownerId: row.ownerId, upTo: row.upTo },
    })
    return 'done'
  })
}
