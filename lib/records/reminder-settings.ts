import {
  REMINDER_DEFAULTS,
  REMINDERS_KEY,
  type ReminderChoices,
  reminderChoices,
} from '@/lib/domain/upkeep/reminder-settings'
import type { Db } from './db'
import { getSetting } from './settings'

/** What the outfit chose about reminders, or the defaults. Throws where the stored text has another shape. */
export function reminderSettings(db: Db): ReminderChoices {
  return getSetting(db, REMINDERS_KEY, reminderChoices, REMINDER_DEFAULTS)
}
