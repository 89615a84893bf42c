import { createHash, randomBytes } from 'node:crypto'
import { demandFleet } from '@/lib/access/rules'
import { OUTFIT, type Viewer } from '@/lib/access/viewer'
import { writeChange } from './changes'
import type { Db } from './db'
import { newId } from './ids'
import { drawCode, tidyCode } from './invitation-code'
import { hashPassword } from './passwords'
import { noteSecurity } from './security-log'
import { prepared } from './statements'
import { transaction } from './transaction'

/** A link by mail is used at once or not at all; a card has to be handed over first. */
export const RESET_MAIL_MINUTES = 10
export const RESET_CARD_DAYS = 7
export const MAILS_AN_HOUR = 3
const TOKEN_BYTES = 32

/** Hidden by one round of SHA-256, being long and of chance; the word before it keeps codes of other purposes out. */
const hashOf = (code: string) => createHash('sha256').update(`reset:${code}`).digest('hex')

/**
 * A link for whoever forgot the password of that address. Null, and nothing stored, where there is no such account, where it
 * is shut out, or where three were sent in the last hour; the caller answers all of these alike, before it asks.
 */
export async function makeMailReset(
  db: Db,
  email: string,
  at: string,
): Promise<{ to: string; name: string; code: string } | null> {
  const code = randomBytes(TOKEN_BYTES).toString('base64url')
  return transaction(db, () => {
    const user = prepared<{ id: string; name: string; email: string }>(
      db.sqlite,
      'SELECT "id","name","email" FROM "User" WHERE "email" = ? AND "disabled" = 0',
    ).get(email.trim().toLowerCase())
    if (!user) return null
    const sent = prepared<{ n: number }>(
      db.sqlite,
      `SELECT COUNT(*) AS n FROM "ResetCode" WHERE "userId" = ? AND "kind" = 'mail' AND "createdAt" > ?`,
    ).get(user.id, minutesFrom(at, -60))
    if ((sent?.n ?? 0) >= MAILS_AN_HOUR) return null
    store(db, OUTFIT, user.id, 'mail', hashOf(code), at, minutesFrom(at, RESET_MAIL_MINUTES))
    return { to: user.email, name: user.name, code }
  })
}

/**
 * A code on a card for somebody who forgot theirs and reads no mail, shown this once. Null where there is no such person.
 * Throws NotAllowed unless the viewer may manage people.
 */
export async function makeResetCard(
  db: Db,
  viewer: Viewer,
  userId: string,
  at: string,
): Promise<{ name: string; code: string; expiresAt: string } | null> {
  demandFleet(viewer, 'user.manage')
  const code = drawCode()
  const expiresAt = minutesFrom(at, RESET_CARD_DAYS * 24 * 60)
  return transaction(db, () => {
    const user = prepared<{ name: string }>(
      db.sqlite,
      'SELECT "name" FROM "User" WHERE "id" = ? AND "disabled" = 0',
    ).get(userId)
    if (!user) return null
    store(db, viewer, userId, 'card', hashOf(code.replaceAll('-', '')), at, expiresAt)
    return { name: user.name, code, expiresAt }
  })
}

/** Stores a code in the place of every earlier one of the person that is still open. Call within a transaction. */
function store(
  db: Db,
  viewer: Viewer,
  userId: string,
  kind: 'mail' | 'card',
  codeHash: string,
  at: string,
  expiresAt: string,
): void {
  spoil(db, userId, at)
  prepared(
    db.sqlite,
    'INSERT INTO "ResetCode" ("id","codeHash","userId","kind","createdAt","expiresAt") VALUES (?,?,?,?,?,?)',
  ).run(newId(), codeHash, userId, kind, at, expiresAt)
  writeChange(db.sqlite, viewer, at, {
    action: `user.reset-${kind}`,
    targetKind: 'user',
    targetId: userId,
    after: { expiresAt },
  })
}

const spoil = (db: Db, userId: string, at: string) =>
  prepared(db.sqlite, 'UPDATE "ResetCode" SET "usedAt" = ? WHERE "userId" = ? AND "usedAt" IS NULL').run(
    at,
    userId,
  )

type OpenReset = { id: string; userId: string; name: string; email: string }

/** The open reset of a code as typed or followed; null for a wrong, used, replaced or run-out one alike. */
export function openReset(db: Db, typed: string, at: string): OpenReset | null {
  const code = tidyCode(typed) ?? (/^[\w-]{43}$/.test(typed.trim()) ? typed.trim() : null)
  if (code === null) return null
  const found = prepared<OpenReset>(
    db.sqlite,
    `SELECT r."id", r."userId", u."name", u."email" FROM "ResetCode" r JOIN "User" u ON u."id" = r."userId"
     WHERE r."codeHash" = ? AND r."usedAt" IS NULL AND r."expiresAt" > ? AND u."disabled" = 0`,
  ).get(hashOf(code), at)
  return found ?? null
}

/**
 * Sets the new password of whoever holds the code, uses the code up and ends every session of theirs: of two who try at once
 * one gets it. The code is the permission; nobody is signed in by it.
 */
export async function acceptReset(
  db: Db,
  typed: string,
  password: string,
  at: string,
): Promise<'done' | 'no-such-code'> {
  if (!openReset(db, typed, at)) return 'no-such-code'
  const passwordHash = await hashPassword(password)
  return transaction(db, () => {
    const reset = openReset(db, typed, at)
    if (!reset) return 'no-such-code'
    spoil(db, reset.userId, at)
    prepared(
      db.sqlite,
      `UPDATE "Account" SET "password" = ? WHERE "userId" = ? AND "providerId" = 'credential'`,
    ).run(passwordHash, reset.userId)
    prepared(db.sqlite, 'DELETE FROM "Session" WHERE "userId" = ?').run(reset.userId)
    noteSecurity(db, { what: 'password-reset', by: reset.userId, about: 'code' })
    writeChange(db.sqlite, { ...OUTFIT, userId: reset.userId, name: reset.name }, at, {
      action: 'user.reset-password',
      targetKind: 'user',
      targetId: reset.userId,
    })
    return 'done'
  })
}

const minutesFrom = (at: string, minutes: number) => new Date(Date.parse(at) + minutes * 60_000).toISOString()
