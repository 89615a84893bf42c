import { createHash, createHmac, randomBytes, timingSafeEqual } from 'node:crypto'
import { dirname } from 'node:path'
import type { Viewer } from '@/lib/access/viewer'
import { OUTFIT } from '@/lib/access/viewer'
import { writeChange } from './changes'
import type { Db } from './db'
import { authSecret } from './secret'
import { prepared } from './statements'
import { transaction } from './transaction'

type Person = Viewer & { userId: string }
/** What a person chose about mail and calendar. */
export type MailChoice = { off: boolean; feedMadeAt: string | null }

export function mailChoice(db: Db, person: Person): MailChoice {
  const row = prepared<{ off: number; feedMadeAt: string | null }>(
    db.sqlite,
    'SELECT "off", "feedMadeAt" FROM "MailChoice" WHERE "userId" = ?',
  ).get(person.userId)
  return { off: row?.off === 1, feedMadeAt: row?.feedMadeAt ?? null }
}

/** Switches a person's reminders by mail off or on, with its line in the change record. */
export function switchMail(db: Db, person: Person, off: boolean, at: string): Promise<void> {
  return transaction(db, () => {
    prepared(
      db.sqlite,
      `INSERT INTO "MailChoice" ("userId","off") VALUES (?,?) ON CONFLICT ("userId") DO UPDATE SET "off" = excluded."off"`,
    ).run(person.userId, off ? 1 : 0)
    writeChange(db.sqlite, person, at, {
      action: off ? 'mail.off' : 'mail.on',
      targetKind: 'user',
      targetId: person.userId,
    })
  })
}

/**
 * The token of the link that switches one person's mail off without signing in: the same in every mail of theirs, so that
 * the link of an old mail works too. It is made from the sign-in secret and never stored, only its hash is.
 */
export async function quietToken(db: Db, userId: string): Promise<string> {
  const secret = await authSecret(dirname(db.file))
  const token = createHmac('sha256', secret).update(`quiet:${userId}`).digest('base64url')
  await transaction(db, () =>
    prepared(
      db.sqlite,
      `INSERT INTO "MailChoice" ("userId","quietHash") VALUES (?,?)
       ON CONFLICT ("userId") DO UPDATE SET "quietHash" = excluded."quietHash"`,
    ).run(userId, hashToken(token)),
  )
  return token
}

/** Whose mail a token switches off; null for every other text. */
export function personOfQuietToken(
  db: Db,
  token: string,
): { userId: string; name: string; off: boolean } | null {
  const hash = hashToken(token)
  const row = prepared<{ userId: string; name: string; off: number; quietHash: string }>(
    db.sqlite,
    `SELECT c."userId", u."name", c."off", c."quietHash" FROM "MailChoice" c JOIN "User" u ON u."id" = c."userId" WHERE c."quietHash" = ?`,
  ).get(hash)
  return row && same(row.quietHash, hash) ? { userId: row.userId, name: row.name, off: row.off === 1 } : null
}

/** Switches off the mail of whoever the token was made for, and nothing else. False for an unknown token. */
export async function quietByToken(db: Db, token: string, at: string): Promise<boolean> {
  const person = personOfQuietToken(db, token)
  if (!person) return false
  if (!person.off) await switchMail(db, { ...OUTFIT, name: person.name, userId: person.userId }, true, at)
  return true
}

/** 192 bits. */
const FEED_BYTES = 24

/** A new calendar address for this person; the one before is dead from now on. The token is told once and kept nowhere. */
export async function makeFeed(db: Db, person: Person, at: string): Promise<string> {
  const token = randomBytes(FEED_BYTES).toString('base64url')
  await putFeed(db, person, hashToken(token), at)
  return token
}

/** Takes the calendar address back. */
export function removeFeed(db: Db, person: Person, at: string): Promise<void> {
  return putFeed(db, person, null, at)
}

function putFeed(db: Db, person: Person, hash: string | null, at: string): Promise<void> {
  return transaction(db, () => {
    prepared(
      db.sqlite,
      `INSERT INTO "MailChoice" ("userId","feedHash","feedMadeAt") VALUES (?,?,?)
       ON CONFLICT ("userId") DO UPDATE SET "feedHash" = excluded."feedHash", "feedMadeAt" = excluded."feedMadeAt"`,
    ).run(person.userId, hash, hash === null ? null : at)
    writeChange(db.sqlite, person, at, {
      action: hash === null ? 'feed.remove' : 'feed.make',
      targetKind: 'user',
      targetId: person.userId,
    })
  })
}

/** Whose calendar address this is; null for any other text, and for a person who is shut out. */
export function userOfFeedToken(db: Db, token: string): string | null {
  const hash = hashToken(token)
  const row = prepared<{ userId: string; feedHash: string }>(
    db.sqlite,
    `SELECT c."userId", c."feedHash" FROM "MailChoice" c JOIN "User" u ON u."id" = c."userId"
     WHERE c."feedHash" = ? AND u."disabled" = 0`,
  ).get(hash)
  return row && same(row.feedHash, hash) ? row.userId : null
}

/** Tokens are long and random: one round of SHA-256 hides them. */
const hashToken = (token: string) => createHash('sha256').update(token).digest('hex')

/** The look-up itself compares hashes of what was sent, so that its time tells nothing of a token. */
const same = (a: string, b: string) =>
  a.length === b.length && timingSafeEqual(Buffer.from(a), Buffer.from(b))
