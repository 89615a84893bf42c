'use server'

import { revalidatePath } from 'next/cache'
import { notFound } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import { now } from '@/lib/clock'
import { resetForm, switchForm } from '@/lib/forms/accounts'
import { type FormState, parseForm } from '@/lib/forms/form'
import { resetPassword, setDisabled } from '@/lib/records/accounts'
import { getDb } from '@/lib/records/open'

/** Shuts a person out, or lets them in again. */
export async function switchPerson(form: FormData): Promise<void> {
  const viewer = await deskViewer()
  const parsed = parseForm(switchForm, form)
  if (!parsed.ok) notFound()
  const outcome = await setDisabled(await getDb(), viewer, parsed.value.id, parsed.value.to === 'out', now())
  if (outcome !== 'done') notFound()
  revalidatePath('/', 'layout')
}

/** Gives a person who forgot theirs a new password. */
export async function giveNewPassword(_before: FormState, form: FormData): Promise<FormState> {
  const viewer = await deskViewer()
  const parsed = parseForm(resetForm, form, ['password'])
  if (!parsed.ok) return parsed.state
  const outcome = await resetPassword(await getDb(), viewer, parsed.value.id, parsed.value.password, now())
  if (outcome === 'no-such-person') notFound()
  return {
    typed: {},
    errors: {},
    done: 'The new password holds from now on. Ask them to change it after signing in',
  }
}
