import type Database from 'better-sqlite3'
import { prepared } from './statements'

const WAITING = `"kind" = 'owner' AND "state" IN ('failed', 'unsure', 'claimed')`
const WHY = 'Written before a well changed hands'

/** Lets go of what waits for the people of a household one of whose wells changed hands. Call within the transaction. */
export function letGoOfHouseholdMails(sqlite: Database.Database, ownerId: string, at: string): void {
  const people = prepared<{ userId: string }>(
    sqlite,
    'SELECT "userId" FROM "Membership" WHERE "ownerId" = ? AND "until" IS NULL',
  ).all(ownerId)
  for (const { userId } of people) letGoOfMails(sqlite, userId, at)
}

/**
 * Lets go of the mails that wait for a person who may read less than when they were written. What no mail server has seen is
 * told anew, in fresh words, as far as they may still read it; of what may have arrived nothing is repeated.
 */
export function letGoOfMails(sqlite: Database.Database, userId: string, at: string): void {
  prepared(
    sqlite,
    `DELETE FROM "Reminder" WHERE "mailingId" IN
     (SELECT "id" FROM "Mailing" WHERE "userId" = ? AND ${WAITING} AND "state" <> 'unsure')`,
  ).run(userId)
  prepared(
    sqlite,
    `UPDATE "Mailing" SET "state" = 'dropped', "settledAt" = ?, "againAt" = NULL, "reason" = '${WHY}'
     WHERE "userId" = ? AND ${WAITING}`,
  ).run(at, userId)
}
