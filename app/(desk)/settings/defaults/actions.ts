'use server'

import { revalidatePath } from 'next/cache'
import { deskViewer } from '@/app/ui/session'
import { now } from '@/lib/clock'
import { REMINDERS_KEY } from '@/lib/domain/upkeep/reminder-settings'
import { readDefaults, readReminders } from '@/lib/forms/defaults-form'
import type { FormState } from '@/lib/forms/form'
import { DEFAULTS_KEY } from '@/lib/records/new-well-defaults'
import { getDb } from '@/lib/records/open'
import { putSetting } from '@/lib/records/settings'

/** Stores what a new well and a new account begin with. What is there already stays as it is. */
export async function saveDefaults(_before: FormState, form: FormData): Promise<FormState> {
  const viewer = await deskViewer()
  const parsed = readDefaults(form)
  if (!parsed.ok) return parsed.state
  await putSetting(await getDb(), viewer, DEFAULTS_KEY, parsed.value, now())
  revalidatePath('/settings/defaults')
  return { typed: parsed.typed, errors: {}, done: 'Saved. It holds for wells and accounts made from now on' }
}

/** Stores when reminders go out. */
export async function saveReminders(_before: FormState, form: FormData): Promise<FormState> {
  const viewer = await deskViewer()
  const parsed = readReminders(form)
  if (!parsed.ok) return parsed.state
  await putSetting(await getDb(), viewer, REMINDERS_KEY, parsed.value, now())
  revalidatePath('/settings/defaults')
  return { typed: parsed.typed, errors: {}, done: 'Saved' }
}
