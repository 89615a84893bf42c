import { z } from 'zod'

/** The key under which the choices about reminders are kept. */
export const REMINDERS_KEY = 'reminders'

/**
 * When reminders go out. `leadDays`: so many days before a due date; 0 is the day itself, which also tells what was past due
 * when reminders began. `officeDigest`: whether installers get one too. `hour`: of the outfit's day, 0 to 23.
 */
export const reminderChoices = z.object({
  leadDays: z
    .array(z.number().int().min(0).max(365))
    .min(1)
    .max(6)
    .refine((days) => new Set(days).size === days.length, 'The same number of days stands twice')
    .default([14, 0]),
  officeDigest: z.boolean().default(true),
  hour: z.number().int().min(0).max(23).default(6),
})
export type ReminderChoices = z.infer<typeof reminderChoices>

/** Common practice, no published source: two weeks are enough to order a bottle or plan a visit. */
export const REMINDER_DEFAULTS: ReminderChoices = reminderChoices.parse({})
