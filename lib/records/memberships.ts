import type Database from 'better-sqlite3'
import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { writeChange } from './changes'
import type { Db } from './db'
import { letGoOfMails } from './mails-let-go'
import { prepared } from './statements'
import { transaction } from './transaction'

/** The households that a person belongs to now, looked up at each request: one taken away is gone at the next. */
export function householdIdsOf(db: Db, userId: string): string[] {
  return prepared<{ ownerId: string }>(
    db.sqlite,
    'SELECT "ownerId" FROM "Membership" WHERE "userId" = ? AND "until" IS NULL ORDER BY "ownerId"',
  )
    .all(userId)
    .map((row) => row.ownerId)
}

const BEGIN = `INSERT INTO "Membership" ("userId","ownerId","since") VALUES (?,?,?)
  ON CONFLICT ("userId","ownerId") DO UPDATE SET "since" = excluded."since", "until" = NULL WHERE "until" IS NOT NULL`

/**
 * Ties a person to a household from the day of `at`, with its line in the change record. False where they belong to it
 * already. Call within a transaction.
 */
export function beginMembership(
  sqlite: Database.Database,
  viewer: Viewer,
  userId: string,
  ownerId: string,
  at: string,
): boolean {
  if (prepared(sqlite, BEGIN).run(userId, ownerId, at.slice(0, 10)).changes === 0) return false
  writeChange(sqlite, viewer, at, {
    action: 'user.join-household',
    targetKind: 'user',
    targetId: userId,
    after: { ownerId },
  })
  return true
}

/**
 * Takes a person out of a household: they keep their account and see its wells no more, from their next request on.
 * Throws NotAllowed unless the viewer may manage people.
 */
export async function endMembership(
  db: Db,
  viewer: Viewer,
  userId: string,
  ownerId: string,
  at: string,
): Promise<'done' | 'no-such-person'> {
  demandFleet(viewer, 'user.manage')
  return transaction(db, () => {
    const { changes } = prepared(
      db.sqlite,
      'UPDATE "Membership" SET "until" = ? WHERE "userId" = ? AND "ownerId" = ? AND "until" IS NULL',
    ).run(at.slice(0, 10), userId, ownerId)
    if (changes === 0) return 'no-such-person'
    letGoOfMails(db.sqlite, userId, at)
    writeChange(db.sqlite, viewer, at, {
      action: 'user.leave-household',
      targetKind: 'user',
      targetId: userId,
      before: { ownerId },
    })
    return 'done'
  })
}
