'use server'

import { revalidatePath } from 'next/cache'
import { demand, deskViewer } from '@/app/ui/session'
import { now } from '@/lib/clock'
import { type FormState, parseForm } from '@/lib/forms/form'
import { yardForm, yardOf } from '@/lib/forms/yard-form'
import { getDb } from '@/lib/records/open'
import { putYard } from '@/lib/records/yard'

/** Stores the yard and the usual day. */
export async function saveYard(_before: FormState, form: FormData): Promise<FormState> {
  const viewer = await deskViewer()
  await demand(viewer, 'setting.edit')
  const parsed = parseForm(yardForm, form)
  if (!parsed.ok) return parsed.state
  await putYard(await getDb(), viewer, yardOf(parsed.value), now())
  revalidatePath('/rounds', 'layout')
  return { typed: parsed.typed, errors: {}, done: 'Saved' }
}
