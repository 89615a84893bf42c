/**
 * `npm run remind`: sends the reminders that are due now, whatever the hour, and tries again what failed. For cron; a server
 * that is sending at the same moment goes first.
 */
import { now, today } from '../clock'
import { getDb } from '../records/open'
import { sendReminders } from '../remind/send'

const db = await getDb()
try {
  const tally = await sendReminders(db, { now, today: today(), claim: true })
  if (tally === null) console.log('Another process is sending: nothing was done here.')
  else {
    const { sent, failed, unsure, dropped } = tally
    console.log(`Sent ${sent}, failed ${failed}, unsure ${unsure}, no longer wanted ${dropped}.`)
    if (failed + unsure > 0) process.exitCode = 1
  }
} finally {
  await db.close()
}
