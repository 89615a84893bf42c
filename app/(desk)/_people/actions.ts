'use server'

import { revalidatePath } from 'next/cache'
import { notFound } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { now } from '@/lib/clock'
import { idForm, resetForm, roleForm, switchForm } from '@/lib/forms/accounts'
import { type FormState, parseForm } from '@/lib/forms/form'
import { paths } from '@/lib/paths'
import { resetPassword, setDisabled, setRole, signOutPerson } from '@/lib/records/accounts'
import { siteUrl } from '@/lib/records/auth'
import { getDb } from '@/lib/records/open'
import { makeResetCard } from '@/lib/records/resets'

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

/** A form that, once accepted, shows the card it made: the one time the code can be read. */
export type CardState = FormState & { card?: { name: string; code: string; site: string; untilDay: string } }

/** Makes a card with which somebody chooses a new password. */
export async function makeCardForPassword(_before: CardState, form: FormData): Promise<CardState> {
  const viewer = await deskViewer()
  const parsed = parseForm(idForm, form)
  if (!parsed.ok) notFound()
  const made = await makeResetCard(await getDb(), viewer, parsed.value.id, now())
  if (!made) notFound()
  const card = {
    name: made.name,
    code: made.code,
    // The address of the site is the configured one, never what the request says it is.
    site: `${siteUrl()}${paths.reset()}`,
    untilDay: showDay(made.expiresAt.slice(0, 10), viewer.units),
  }
  return { typed: {}, errors: {}, card }
}

/** Ends every session of somebody. */
export async function signOutEverywhere(form: FormData): Promise<void> {
  const viewer = await deskViewer()
  const parsed = parseForm(idForm, form)
  if (!parsed.ok) notFound()
  if ((await signOutPerson(await getDb(), viewer, parsed.value.id, now())) !== 'done') notFound()
  revalidatePath('/', 'layout')
}

/** Makes a technician an installer, or the other way round. */
export async function changeRole(form: FormData): Promise<void> {
  const viewer = await deskViewer()
  const parsed = parseForm(roleForm, form)
  if (!parsed.ok) notFound()
  const outcome = await setRole(await getDb(), viewer, parsed.value.id, parsed.value.role, now())
  if (outcome !== 'done') notFound()
  revalidatePath('/', 'layout')
}
