import { demandFleet } from '@/lib/access/rules'
import { OUTFIT, type Viewer } from '@/lib/access/viewer'
import { insertPerson, type NewPerson, personWithEmail } from './accounts'
import { writeChange } from './changes'
import type { Db } from './db'
import { newId } from './ids'
import { drawCode, hashCode, tidyCode } from './invitation-code'
import { beginMembership } from './memberships'
import { hashPassword } from './passwords'
import { prepared } from './statements'
import { transaction } from './transaction'
import { exclusively } from './turns'

/** How long a card lies in a drawer before it is worth nothing. */
export const INVITATION_DAYS = 60
const DAY_MS = 86_400_000

export type InvitationState = 'open' | 'used' | 'run-out' | 'taken-back'
export type InvitationRow = {
  id: string
  forName: string
  createdAt: string
  createdBy: string
  expiresAt: string
  usedAt: string | null
  revokedAt: string | null
}

/** What has become of an invitation at the instant `at`. */
export function invitationState(row: InvitationRow, at: string): InvitationState {
  if (row.usedAt !== null) return 'used'
  if (row.revokedAt !== null) return 'taken-back'
  return row.expiresAt <= at ? 'run-out' : 'open'
}

/**
 * Invites one person into a household. Answers the code, which is shown this once and stored nowhere; null where
 * there is no such household. Throws NotAllowed unless the viewer may manage people.
 */
export async function invite(
  db: Db,
  viewer: Viewer,
  ownerId: string,
  forName: string,
  at: string,
): Promise<{ code: string; expiresAt: string; household: string } | null> {
  demandFleet(viewer, 'user.manage')
  const code = drawCode()
  const expiresAt = new Date(Date.parse(at) + INVITATION_DAYS * DAY_MS).toISOString()
  return transaction(db, () => {
    const owner = prepared<{ name: string }>(db.sqlite, 'SELECT "name" FROM "Owner" WHERE "id" = ?').get(
      ownerId,
    )
    if (!owner) return null
    const id = newId()
    prepared(
      db.sqlite,
      'INSERT INTO "Invitation" ("id","codeHash","ownerId","forName","createdAt","createdBy","expiresAt") VALUES (?,?,?,?,?,?,?)',
    ).run(id, hashCode(code.replaceAll('-', '')), ownerId, forName, at, viewer.name, expiresAt)
    writeChange(db.sqlite, viewer, at, {
      action: 'invitation.create',
      targetKind: 'invitation',
      targetId: id,
      after: { ownerId, forName, expiresAt },
    })
    return { code, expiresAt, household: owner.name }
  })
}

/** The invitations of a household, newest first. Throws NotAllowed unless the viewer may manage people. */
export function invitationsOf(db: Db, viewer: Viewer, ownerId: string): InvitationRow[] {
  demandFleet(viewer, 'user.manage')
  return prepared<InvitationRow>(
    db.sqlite,
    `SELECT "id","forName","createdAt","createdBy","expiresAt","usedAt","revokedAt" FROM "Invitation"
     WHERE "ownerId" = ? ORDER BY "createdAt" DESC, "id" DESC LIMIT 50`,
  ).all(ownerId)
}

/** Takes an open invitation back. Throws NotAllowed unless the viewer may manage people. */
export async function revokeInvitation(
  db: Db,
  viewer: Viewer,
  invitationId: string,
  at: string,
): Promise<'done' | 'not-open'> {
  demandFleet(viewer, 'user.manage')
  return transaction(db, () => {
    const { changes } = prepared(
      db.sqlite,
      'UPDATE "Invitation" SET "revokedAt" = ? WHERE "id" = ? AND "usedAt" IS NULL AND "revokedAt" IS NULL',
    ).run(at, invitationId)
    if (changes === 0) return 'not-open'
    writeChange(db.sqlite, viewer, at, {
      action: 'invitation.take-back',
      targetKind: 'invitation',
      targetId: invitationId,
    })
    return 'done'
  })
}

const OPEN = `SELECT i."id", i."ownerId", i."forName", o."name" AS "household" FROM "Invitation" i
  JOIN "Owner" o ON o."id" = i."ownerId"
  WHERE i."codeHash" = ? AND i."usedAt" IS NULL AND i."revokedAt" IS NULL AND i."expiresAt" > ?`
type OpenInvitation = { id: string; ownerId: string; forName: string; household: string }

/** The open invitation of a code as typed; null for a wrong, used, taken-back or run-out one alike. */
export function openInvitation(db: Db, typed: string, at: string): OpenInvitation | null {
  const code = tidyCode(typed)
  if (code === null) return null
  return prepared<OpenInvitation>(db.sqlite, OPEN).get(hashCode(code), at) ?? null
}

/**
 * Makes the account of whoever holds the code, for the household it names, and uses the code up: of two who try at
 * once one gets it. The code is the permission; nobody is signed in yet.
 */
export async function acceptInvitation(
  db: Db,
  typed: string,
  person: NewPerson,
  at: string,
): Promise<'created' | 'email-taken' | 'no-such-invitation'> {
  if (!openInvitation(db, typed, at)) return 'no-such-invitation'
  const passwordHash = await hashPassword(person.password)
  return exclusively(async () => {
    const invitation = openInvitation(db, typed, at)
    if (!invitation) return 'no-such-invitation'
    if (await personWithEmail(db, person.email)) return 'email-taken'
    const { ownerId } = invitation
    await insertPerson(
      db,
      { ...OUTFIT, name: person.name },
      { ...person, role: 'owner', ownerId, passwordHash, at },
      [
        db.prisma.invitation.update({
          where: { id: invitation.id },
          data: { usedAt: at, usedBy: person.name },
        }),
      ],
    )
    return 'created'
  })
}

/**
 * Adds the household of a card to the account of whoever is signed in, and uses the card up.
 * Throws NotAllowed for people of the outfit: they see every well already.
 */
export async function joinHousehold(
  db: Db,
  viewer: Viewer & { userId: string },
  typed: string,
  at: string,
): Promise<'joined' | 'already' | 'no-such-invitation'> {
  demandFleet(viewer, 'household.join')
  return transaction(db, () => {
    const invitation = openInvitation(db, typed, at)
    if (!invitation) return 'no-such-invitation'
    // The card stays open: it may be meant for somebody else of the household.
    if (!beginMembership(db.sqlite, viewer, viewer.userId, invitation.ownerId, at)) return 'already'
    prepared(db.sqlite, 'UPDATE "Invitation" SET "usedAt" = ?, "usedBy" = ? WHERE "id" = ?').run(
      at,
      viewer.name,
      invitation.id,
    )
    return 'joined'
  })
}
