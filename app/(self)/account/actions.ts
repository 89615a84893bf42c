'use server'

import { revalidatePath } from 'next/cache'
import { headers } from 'next/headers'
import { notFound, redirect } from 'next/navigation'
import { applyCookies, signedInViewer } from '@/app/ui/session'
import { now } from '@/lib/clock'
import { idForm, passwordForm, profileForm } from '@/lib/forms/accounts'
import { type FormState, parseForm } from '@/lib/forms/form'
import { endAllSessions, endSession, updateProfile } from '@/lib/records/accounts'
import { getDb } from '@/lib/records/open'
import { changePassword } from '@/lib/records/sessions'

/** Stores the viewer's own name and units. */
export async function saveProfile(_before: FormState, form: FormData): Promise<FormState> {
  const viewer = await signedInViewer()
  const parsed = parseForm(profileForm, form)
  if (!parsed.ok) return parsed.state
  await updateProfile(await getDb(), viewer, parsed.value, now())
  revalidatePath('/', 'layout')
  return { typed: parsed.typed, errors: {}, done: 'Saved' }
}

/** Changes the viewer's own password, which ends every other session of theirs. */
export async function savePassword(_before: FormState, form: FormData): Promise<FormState> {
  await signedInViewer()
  const parsed = parseForm(passwordForm, form, ['current', 'fresh'])
  if (!parsed.ok) return parsed.state
  const outcome = await changePassword(
    await getDb(),
    await headers(),
    parsed.value.current,
    parsed.value.fresh,
  )
  if (outcome.kind === 'no-match') {
    return { typed: {}, errors: { current: 'This is not the password you have now' } }
  }
  if (outcome.kind === 'wait') {
    return {
      typed: {},
      errors: {},
      message: `There were too many tries. Wait ${outcome.seconds} s, then try again`,
    }
  }
  await applyCookies(outcome.cookies)
  // A new session begins with it, and the page is made anew: the note comes with the address.
  redirect('/account?password=changed')
}

/** Signs the viewer out of every browser, this one too. */
export async function endSessions(): Promise<void> {
  const viewer = await signedInViewer()
  await endAllSessions(await getDb(), viewer)
  redirect('/sign-in?left=yes')
}

/** Ends one other session of the viewer's. */
export async function endOneSession(form: FormData): Promise<void> {
  const viewer = await signedInViewer()
  const parsed = parseForm(idForm, form)
  if (!parsed.ok) notFound()
  await endSession(await getDb(), viewer, parsed.value.id)
  revalidatePath('/account')
}
