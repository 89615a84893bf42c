import { demandFleet, mayFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { Day } from '@/lib/domain/quantity/day'
import { writeChange } from './changes'
import type { Db } from './db'
import { prepared } from './statements'
import { transaction } from './transaction'
import { exclusively } from './turns'

/**
 * A mail from the moment at which it was decided on. `claimed`: nothing was handed over yet. `handing`: it may have been.
 * `unsure`: it was handed over whole and nobody knows whether it was taken; a person decides. `dropped`: its reader is
 * shut out or wants none.
 */
export const MAIL_STATES = ['claimed', 'handing', 'sent', 'failed', 'unsure', 'dropped'] as const
export type MailState = (typeof MAIL_STATES)[number]
export type MailingRow = {
  id: string
  userId: string
  name: string
  kind: 'owner' | 'office'
  forDay: Day
  address: string
  subject: string
  text: string
  state: MailState
  tries: number
  reason: string | null
  claimedAt: string
  settledAt: string | null
  againAt: string | null
}

const SELECT = 'SELECT m.*, u."name" FROM "Mailing" m JOIN "User" u ON u."id" = m."userId"'

/**
 * What an earlier run left behind when it died, looked at by whoever holds the sending lock. What was only claimed is let go,
 * to be claimed anew with fresh words: nothing of it was sent. What was being handed over cannot be known: it is `unsure`,
 * or tried again where a second delivery is the same file (`repeatable`).
 */
export function settleLeftovers(db: Db, at: string, repeatable: boolean): Promise<void> {
  return transaction(db, () => {
    const { sqlite } = db
    prepared(
      sqlite,
      `DELETE FROM "Reminder" WHERE "mailingId" IN (SELECT "id" FROM "Mailing" WHERE "state" = 'claimed')`,
    ).run()
    prepared(sqlite, `DELETE FROM "Mailing" WHERE "state" = 'claimed'`).run()
    prepared(
      sqlite,
      repeatable
        ? `UPDATE "Mailing" SET "state" = 'failed', "againAt" = ?, "reason" = 'The server stopped in the middle' WHERE "state" = 'handing'`
        : `UPDATE "Mailing" SET "state" = 'unsure', "settledAt" = ?, "reason" = 'The server stopped while it was handed over' WHERE "state" = 'handing'`,
    ).run(at)
  })
}

/** The next mail that waits for another try at `at`; null where none does. */
export function nextToTry(db: Db, at: string): MailingRow | null {
  const row = prepared<MailingRow>(
    db.sqlite,
    `${SELECT} WHERE m."state" = 'failed' AND m."againAt" IS NOT NULL AND m."againAt" <= ? ORDER BY m."claimedAt" LIMIT 1`,
  ).get(at)
  return row ?? null
}

export function mailing(db: Db, id: string): MailingRow | null {
  return prepared<MailingRow>(db.sqlite, `${SELECT} WHERE m."id" = ?`).get(id) ?? null
}

/** Notes what becomes of a mail. */
export function markMailing(
  db: Db,
  id: string,
  to: { state: MailState; at: string; reason?: string; againAt?: string | null },
): Promise<void> {
  return exclusively(() => {
    prepared(
      db.sqlite,
      `UPDATE "Mailing" SET "state" = ?, "settledAt" = ?, "reason" = ?, "againAt" = ?,
       "tries" = "tries" + ? WHERE "id" = ?`,
    ).run(to.state, to.at, to.reason ?? null, to.againAt ?? null, to.state === 'handing' ? 0 : 1, id)
  })
}

/** The newest mails, `after` the id of the last one seen. Throws NotAllowed unless the viewer keeps the settings. */
export function mailingList(
  db: Db,
  viewer: Viewer,
  after: string | null,
  limit: number,
): { rows: MailingRow[]; next: string | null } {
  demandFleet(viewer, 'setting.edit')
  const rows = prepared<MailingRow>(db.sqlite, `${SELECT} WHERE m."id" < ? ORDER BY m."id" DESC LIMIT ?`).all(
    after ?? '~',
    limit + 1,
  )
  const page = rows.slice(0, limit)
  return { rows: page, next: rows.length > limit ? (page.at(-1)?.id ?? null) : null }
}

/** Mails that did not go out and that a person should look at. */
export function troubled(db: Db, viewer: Viewer): MailingRow[] {
  demandFleet(viewer, 'setting.edit')
  return prepared<MailingRow>(
    db.sqlite,
    `${SELECT} WHERE m."state" IN ('failed', 'unsure') ORDER BY m."claimedAt" DESC LIMIT 50`,
  ).all()
}

/** How many they are. Nobody but the office is told. */
export function troubledCount(db: Db, viewer: Viewer): number {
  if (!mayFleet(viewer, 'setting.edit')) return 0
  return (
    prepared<{ n: number }>(
      db.sqlite,
      `SELECT COUNT(*) AS n FROM "Mailing" WHERE "state" IN ('failed', 'unsure')`,
    ).get()?.n ?? 0
  )
}

/** Lets a mail that failed, or of which nobody knows, go out again: the same mail, by its Message-ID. Throws NotAllowed unless the viewer may. */
export function sendAgain(db: Db, viewer: Viewer, id: string, at: string): Promise<'done' | 'no-such-mail'> {
  demandFleet(viewer, 'setting.edit')
  return transaction(db, () => {
    const { changes } = prepared(
      db.sqlite,
      `UPDATE "Mailing" SET "state" = 'failed', "againAt" = ?, "tries" = 0 WHERE "id" = ? AND "state" IN ('failed', 'unsure')`,
    ).run(at, id)
    if (changes === 0) return 'no-such-mail'
    writeChange(db.sqlite, viewer, at, { action: 'mail.again', targetKind: 'mail', targetId: id })
    return 'done'
  })
}

/** Words of mails older than a year are forgotten; that they were sent stays known. */
export function forgetOldWords(db: Db, before: string): Promise<void> {
  return exclusively(() => {
    prepared(db.sqlite, `UPDATE "Mailing" SET "text" = '' WHERE "claimedAt" < ? AND "text" <> ''`).run(before)
  })
}
