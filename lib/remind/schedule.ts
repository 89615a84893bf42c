import { Cron } from 'croner'
import { hourIn, now, today, zone } from '@/lib/clock'
import { getDb } from '@/lib/records/open'
import { reminderSettings } from '@/lib/records/reminder-settings'
import { sendReminders } from './send'

declare global {
  // Modules are loaded more than once in a server: there is one clock all the same.
  var wellroundReminders: Cron | undefined
}

/**
 * Looks every ten minutes for what is to be sent, from the hour of the outfit's day that the settings name. A look that is
 * still at work is never overtaken. WELLROUND_REMIND=off leaves it to `npm run remind`.
 */
export function startReminders(): void {
  if (process.env.WELLROUND_REMIND === 'off' || globalThis.wellroundReminders) return
  globalThis.wellroundReminders = new Cron(
    '*/10 * * * *',
    { name: 'reminders', protect: true, catch: (error: unknown) => console.error('Reminders:', error) },
    look,
  )
}

async function look(): Promise<void> {
  const db = await getDb()
  const claim = hourIn(zone(), Date.parse(now())) >= reminderSettings(db).hour
  await sendReminders(db, { now, today: today(), claim })
}
