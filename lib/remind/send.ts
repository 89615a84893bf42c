import type { Day } from '@/lib/domain/quantity/day'
import { type MailSettings, mailSettings } from '@/lib/mail/mail-settings'
import { sendMail } from '@/lib/mail/mailer'
import { siteUrl } from '@/lib/records/auth'
import { claimMail } from '@/lib/records/claim-mail'
import type { Db } from '@/lib/records/db'
import { quietToken } from '@/lib/records/mail-choice'
import { mailPeople, mailPerson } from '@/lib/records/mail-people'
import {
  forgetOldWords,
  type MailingRow,
  mailing,
  markMailing,
  nextToTry,
  settleLeftovers,
} from '@/lib/records/mailings'
import { reminderSettings } from '@/lib/records/reminder-settings'
import { whileSending } from '@/lib/records/sending-lock'
import { QUIET_MARK } from '@/lib/records/write-letter'

/** The caller's clock: the instant now, and the day at the outfit. `claim`: whether it is late enough for new mails. */
export type SendClock = { now: () => string; today: Day; claim: boolean }
export type SendTally = { sent: number; failed: number; unsure: number; dropped: number }

/** Minutes before a mail that could not be handed over is tried again; after the last of them a person decides. */
const AGAIN_AFTER_MIN = [15, 60, 240, 720] as const
const WORDS_KEPT_DAYS = 365
const DAY_MS = 86_400_000

/**
 * Sends what is to be told, each thing once, and tries again what failed. Answers null where another process is at it.
 *
 * Each mail is claimed (with the keys of what it tells), marked as being handed over at the last moment at which a mail
 * server has kept nothing, and marked as sent. A process that dies before the second step has sent nothing: the next run
 * claims anew. One that dies between the second and the third leaves a mail of which nobody knows: it is shown to the
 * office and not repeated by itself, so that nobody is written to twice and nothing is lost in silence.
 */
export function sendReminders(
  db: Db,
  clock: SendClock,
  settings: MailSettings = mailSettings(),
): Promise<SendTally | null> {
  return whileSending(db, async () => {
    const tally: SendTally = { sent: 0, failed: 0, unsure: 0, dropped: 0 }
    await settleLeftovers(db, clock.now(), settings.kind === 'outbox')
    for (const at = clock.now(); ; ) {
      const row = nextToTry(db, at)
      if (!row) break
      tally[await sendOne(db, row, clock, settings)] += 1
    }
    const choices = reminderSettings(db)
    for (const person of clock.claim ? mailPeople(db, choices.officeDigest) : []) {
      const id = await claimMail(db, person, clock.today, clock.now(), choices)
      const row = id === null ? null : mailing(db, id)
      if (row) tally[await sendOne(db, row, clock, settings)] += 1
    }
    await forgetOldWords(db, new Date(Date.parse(clock.now()) - WORDS_KEPT_DAYS * DAY_MS).toISOString())
    return tally
  })
}

async function sendOne(
  db: Db,
  row: MailingRow,
  { now }: SendClock,
  settings: MailSettings,
): Promise<keyof SendTally> {
  const person = mailPerson(db, row.userId)
  if (!person) {
    await markMailing(db, row.id, {
      state: 'dropped',
      at: now(),
      reason: 'Shut out, or switched off by the reader',
    })
    return 'dropped'
  }
  const quiet = await quietToken(db, row.userId)
  const outcome = await sendMail(
    {
      to: person.email,
      subject: row.subject,
      text: row.text.replaceAll(QUIET_MARK, `${siteUrl()}/quiet/${quiet}`),
      key: row.id,
      // One press in a mail program switches them off (RFC 8058).
      headers: {
        'List-Unsubscribe': `<${siteUrl()}/api/quiet/${quiet}>`,
        'List-Unsubscribe-Post': 'List-Unsubscribe=One-Click',
      },
    },
    () => markMailing(db, row.id, { state: 'handing', at: now() }),
    settings,
  )
  if (outcome.kind === 'failed') {
    const minutes = outcome.again ? AGAIN_AFTER_MIN[row.tries] : undefined
    const againAt =
      minutes === undefined ? null : new Date(Date.parse(now()) + minutes * 60_000).toISOString()
    await markMailing(db, row.id, { state: 'failed', at: now(), reason: outcome.reason, againAt })
    return 'failed'
  }
  const reason = outcome.kind === 'unsure' ? { reason: outcome.reason } : {}
  await markMailing(db, row.id, { state: outcome.kind, at: now(), ...reason })
  return outcome.kind
}
