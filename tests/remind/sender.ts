/** A process of its own that sends reminders once: sender.ts DATABASE INSTANT. The mail server stands in the environment. */
import { openDb } from '@/lib/records/db'
import { sendReminders } from '@/lib/remind/send'

const [file, at] = process.argv.slice(2)
if (!file || !at) throw new Error('sender.ts DATABASE INSTANT')
const db = await openDb(file)
const tally = await sendReminders(db, { now: () => at, today: at.slice(0, 10), claim: true })
await db.close()
process.stdout.write(`${JSON.stringify(tally)}\n`)
