import { z } from 'zod'
import { slug } from '@/lib/domain/upkeep/keys'
import { DUTY_LIBRARY } from '@/lib/domain/upkeep/library'
import { type ReminderChoices, reminderChoices } from '@/lib/domain/upkeep/reminder-settings'
import { optionalMonthDay, optionalText } from './fields'
import { type Parsed, parseForm } from './form'

const fixed = z.object({
  units: z.enum(['us', 'metric'], 'Choose US or metric units'),
  closedFrom: optionalMonthDay('first day of the closed season'),
  closedTo: optionalMonthDay('last day of the closed season'),
  closedWhy: optionalText('reason', 120),
})

export type Defaults = z.output<typeof fixed> & { duties: { key: string; everyMonths: number | null }[] }

/** The two fields of a duty of the library: a box to tick, and its months where the outfit has its own. */
export const dutyBox = (key: string) => ({ tick: `give-${key}`, months: `months-${key}` })

/** What a new well begins with, from the sent form: one box and one number for each duty of the library. */
export function readDefaults(form: FormData): Parsed<Defaults> {
  const keys = DUTY_LIBRARY.map(({ name }) => slug(name))
  const boxes = z.object(
    Object.fromEntries(keys.flatMap((key) => Object.values(dutyBox(key)).map((name) => [name, z.string()]))),
  )
  const sent = parseForm(fixed, form)
  const ticked = parseForm(boxes, form)
  const typed = {
    ...(sent.ok ? sent.typed : sent.state.typed),
    ...(ticked.ok ? ticked.typed : ticked.state.typed),
  }
  const errors: Record<string, string> = sent.ok ? {} : { ...sent.state.errors }
  const duties = keys.flatMap((key) => {
    const { tick, months } = dutyBox(key)
    const text = (typed[months] ?? '').trim()
    if (text !== '' && !(/^\d{1,3}$/.test(text) && Number(text) >= 1 && Number(text) <= 600))
      errors[months] = 'The months must be a whole number from 1 to 600, or blank'
    return typed[tick] ? [{ key, everyMonths: text === '' ? null : Number(text) }] : []
  })
  if (sent.ok && (sent.value.closedFrom === null) !== (sent.value.closedTo === null))
    errors[sent.value.closedFrom === null ? 'closedFrom' : 'closedTo'] =
      'Enter both days of the closed season, or none'
  if (!sent.ok || Object.keys(errors).length > 0) return { ok: false, state: { typed, errors } }
  const { units, closedFrom, closedTo, closedWhy } = sent.value
  return { ok: true, value: { units, closedFrom, closedTo, closedWhy, duties }, typed }
}

const typedReminders = z.object({
  leadDays: z.string().trim(),
  hour: z.string().trim(),
  officeDigest: z.string(),
})

/** When reminders go out, as people type it: days before, parted by commas; an hour; a box for the outfit's own digest. */
export function readReminders(form: FormData): Parsed<ReminderChoices> {
  const sent = parseForm(typedReminders, form)
  if (!sent.ok) return sent
  const { leadDays, hour, officeDigest } = sent.value
  const days = leadDays.split(/[\s,;]+/).filter(Boolean)
  const parsed = reminderChoices.safeParse({
    leadDays: days.every((text) => /^\d{1,3}$/.test(text)) ? days.map(Number).sort((a, b) => b - a) : [],
    officeDigest: officeDigest !== '',
    hour: /^\d{1,2}$/.test(hour) ? Number(hour) : -1,
  })
  if (parsed.success) return { ok: true, value: parsed.data, typed: sent.typed }
  const wrong = new Set(parsed.error.issues.map((issue) => String(issue.path[0])))
  const errors = {
    ...(wrong.has('leadDays')
      ? { leadDays: 'Enter one to six different numbers of days from 0 to 365, like 14, 0' }
      : {}),
    ...(wrong.has('hour') ? { hour: 'The hour must be from 0 to 23' } : {}),
  }
  return { ok: false, state: { typed: sent.typed, errors } }
}
