import type Database from 'better-sqlite3'
import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { Day } from '@/lib/domain/quantity/day'
import { writeChange } from './changes'
import type { Db } from './db'
import { newId } from './ids'
import { handOver, ownerIdFor, searchWordsAnew } from './register-rows'
import type { WellRow } from './rows'
import { refreshWell } from './standings'
import { prepared } from './statements'
import { transaction } from './transaction'
import { visibleWell } from './wells'

export type Sale = {
  ownerName: string
  ownerPhone: string | null
  ownerEmail: string | null
  /** What the well is called from now on; null for its label alone. The old name may be the old household's. */
  wellName: string | null
  /** The last day on which the former household held the well. */
  on: Day
  /** Whether the former household may go on reading what the logbook held up to that day. */
  mayRead: boolean
}

/**
 * Moves a well to another household. The records stay with the well. The former household sees nothing of it from its next
 * request on, or, where the installer grants it, what the logbook held up to the day of the sale. The new one reads what was
 * measured and done, and neither names nor words of the one before.
 * Throws NotAllowed unless the viewer may edit wells.
 */
export async function sellWell(
  db: Db,
  viewer: Viewer,
  wellId: string,
  sale: Sale,
  at: string,
): Promise<'done' | 'no-such-well' | 'same-household'> {
  demandFleet(viewer, 'well.edit')
  return transaction(db, () => {
    const { sqlite } = db
    const before = visibleWell(db, viewer, wellId)
    if (!before) return 'no-such-well'
    const ownerId = ownerIdFor(sqlite, sale)
    if (ownerId === null || ownerId === before.ownerId) return 'same-household'
    const { wellName } = sale
    prepared(
      sqlite,
      // Hours and days were wishes of the household before; nobody is to be kept away by them.
      `UPDATE "Well" SET "ownerId" = ?, "name" = ?, "visitFrom" = NULL, "visitUntil" = NULL, "visitDays" = NULL,
       "version" = "version" + 1 WHERE "id" = ?`,
    ).run(ownerId, wellName, wellId)
    handOver(sqlite, before, ownerId, at)
    searchWordsAnew(sqlite, { ...before, name: wellName }, sale.ownerName)
    writeChange(sqlite, viewer, at, {
      action: 'well sold',
      targetKind: 'well',
      targetId: wellId,
      wellId,
      before: {
        ownerId: before.ownerId,
        name: before.name,
        visitFrom: before.visitFrom,
        visitUntil: before.visitUntil,
        visitDays: before.visitDays,
      },
      after: {
        ownerId,
        name: wellName,
        visitFrom: null,
        visitUntil: null,
        visitDays: null,
        on: sale.on,
        mayRead: sale.mayRead,
      },
    })
    if (sale.mayRead && before.ownerId !== null) grant(sqlite, viewer, before, before.ownerId, sale.on, at)
    refreshWell(sqlite, wellId)
    return 'done'
  })
}

function grant(
  sqlite: Database.Database,
  viewer: Viewer,
  before: WellRow,
  ownerId: string,
  upTo: Day,
  at: string,
): void {
  const id = newId()
  prepared(
    sqlite,
    'INSERT INTO "Grant" ("id","wellId","ownerId","called","since","upTo","createdAt","createdBy") VALUES (?,?,?,?,?,?,?,?)',
  ).run(id, before.id, ownerId, before.name ?? before.label, before.heldSince, upTo, at, viewer.name)
  writeChange(sqlite, viewer, at, {
    action: 'reading granted',
    targetKind: 'well',
    targetId: before.id,
    wellId: before.id,
    after: { ownerId, upTo },
  })
}
