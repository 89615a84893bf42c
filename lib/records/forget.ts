import type Database from 'better-sqlite3'
import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { writeChange } from './changes'
import type { Db } from './db'
import { householdIdsOf } from './memberships'
import { searchWordsAnew } from './register-rows'
import type { WellRow } from './rows'
import { FORMER_OWNER } from './shown-entries'
import { prepared } from './statements'
import { transaction } from './transaction'
import { keyOf } from './well-fields'

/**
 * Forgets a person of a household: account, password, passkeys, sessions, cards, and their name and address wherever they
 * stand outside the logbook. What they wrote in logbooks stays with the wells and is shown as a former owner's.
 * People of the outfit are shut out instead: who did the work must stay known.
 * Throws NotAllowed unless the viewer may manage people.
 */
export async function forgetPerson(
  db: Db,
  viewer: Viewer,
  userId: string,
  at: string,
): Promise<'done' | 'no-such-person'> {
  demandFleet(viewer, 'user.manage')
  return transaction(db, () => {
    const person = prepared<{ role: string }>(db.sqlite, 'SELECT "role" FROM "User" WHERE "id" = ?').get(
      userId,
    )
    if (person?.role !== 'owner') return 'no-such-person'
    erasePerson(db.sqlite, userId)
    writeChange(db.sqlite, viewer, at, { action: 'person forgotten', targetKind: 'user', targetId: userId })
    return 'done'
  })
}

/**
 * Forgets a household: its name, phone, email, notes, cards, and every person who belongs to no other. Its wells, should it
 * still have any, stand under a name that says nothing. Throws NotAllowed unless the viewer may manage people.
 */
export async function forgetHousehold(
  db: Db,
  viewer: Viewer,
  ownerId: string,
  at: string,
): Promise<'done' | 'no-such-household'> {
  demandFleet(viewer, 'user.manage')
  return transaction(db, () => {
    const { sqlite } = db
    if (!prepared(sqlite, 'SELECT 1 FROM "Owner" WHERE "id" = ?').get(ownerId)) return 'no-such-household'
    for (const { userId } of prepared<{ userId: string }>(
      sqlite,
      'SELECT "userId" FROM "Membership" WHERE "ownerId" = ?',
    ).all(ownerId)) {
      if (householdIdsOf(db, userId).every((id) => id === ownerId)) erasePerson(sqlite, userId)
    }
    prepared(sqlite, 'DELETE FROM "Membership" WHERE "ownerId" = ?').run(ownerId)
    prepared(sqlite, 'UPDATE "Grant" SET "revokedAt" = ? WHERE "ownerId" = ? AND "revokedAt" IS NULL').run(
      at,
      ownerId,
    )
    for (const { id } of prepared<{ id: string }>(
      sqlite,
      'SELECT "id" FROM "Invitation" WHERE "ownerId" = ?',
    ).all(ownerId))
      blankChanges(sqlite, 'invitation', id)
    prepared(sqlite, 'DELETE FROM "Invitation" WHERE "ownerId" = ?').run(ownerId)
    blankChanges(sqlite, 'owner', ownerId)
    const name = `Former owner ${ownerId.slice(-6)}`
    prepared(
      sqlite,
      `UPDATE "Owner" SET "name" = ?, "nameKey" = ?, "phone" = NULL, "email" = NULL, "notes" = NULL,
       "version" = "version" + 1 WHERE "id" = ?`,
    ).run(name, keyOf(name), ownerId)
    for (const well of prepared<WellRow>(sqlite, 'SELECT * FROM "Well" WHERE "ownerId" = ?').all(ownerId))
      searchWordsAnew(sqlite, well, name)
    writeChange(sqlite, viewer, at, {
      action: 'household forgotten',
      targetKind: 'owner',
      targetId: ownerId,
    })
    return 'done'
  })
}

/** Sessions, passwords, passkeys, memberships and reset codes go with the account's row. */
function erasePerson(sqlite: Database.Database, userId: string): void {
  const person = prepared<{ name: string; email: string }>(
    sqlite,
    'SELECT "name","email" FROM "User" WHERE "id" = ?',
  ).get(userId)
  if (!person) return
  const cards = prepared<{ id: string }>(
    sqlite,
    `SELECT "id" FROM "Invitation" WHERE "usedBy" = ? AND "ownerId" IN (SELECT "ownerId" FROM "Membership" WHERE "userId" = ?)`,
  ).all(person.name, userId)
  for (const { id } of cards) {
    blankChanges(sqlite, 'invitation', id)
    prepared(sqlite, 'DELETE FROM "Invitation" WHERE "id" = ?').run(id)
  }
  prepared(sqlite, 'DELETE FROM "User" WHERE "id" = ?').run(userId)
  prepared(sqlite, 'UPDATE "Attachment" SET "byName" = ? WHERE "byUserId" = ?').run(FORMER_OWNER, userId)
  // Who makes their own account with a card is named by its line, and had no id yet.
  prepared(
    sqlite,
    `UPDATE "Change" SET "byName" = ? WHERE "byUserId" = ?
     OR ("byUserId" IS NULL AND "byName" = ? AND "targetKind" = 'user' AND "targetId" = ?)`,
  ).run(FORMER_OWNER, userId, person.name, userId)
  blankChanges(sqlite, 'user', userId)
}

/** What the change record said of them: that something was done and when stays, the words go. */
function blankChanges(sqlite: Database.Database, kind: 'user' | 'owner' | 'invitation', id: string): void {
  for (const side of ['before', 'after'] as const)
    prepared(
      sqlite,
      `UPDATE "Change" SET "${side}" = '"forgotten"' WHERE "targetKind" = ? AND "targetId" = ? AND "${side}" IS NOT NULL`,
    ).run(kind, id)
}
