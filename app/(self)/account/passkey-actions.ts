'use server'

import { revalidatePath } from 'next/cache'
import { headers } from 'next/headers'
import { notFound } from 'next/navigation'
import { applyCookies, signedInViewer } from '@/app/ui/session'
import { now } from '@/lib/clock'
import { type FormState, parseForm } from '@/lib/forms/form'
import { newPasskey, passkeyName, removeForm, renameForm } from '@/lib/forms/passkey-answer'
import { getDb } from '@/lib/records/open'
import { addPasskey, beginPasskey, removePasskey, renamePasskey } from '@/lib/records/passkeys'

/** What the device is asked for a new passkey of the viewer's; nothing where they must sign in again first. */
export async function startPasskey(): Promise<Record<string, unknown> | null> {
  await signedInViewer()
  const begun = await beginPasskey(await getDb(), await headers())
  if (begun === 'sign-in-again') return null
  await applyCookies(begun.cookies)
  return begun.options
}

/** Keeps the new passkey; answers one sentence where it cannot. */
export async function finishPasskey(name: unknown, made: unknown): Promise<string | null> {
  const viewer = await signedInViewer()
  const called = passkeyName.safeParse(name)
  const answer = newPasskey.safeParse(made)
  if (!called.success) return called.error.issues[0]?.message ?? 'Enter a name for it'
  if (!answer.success) return 'The device’s answer could not be read. Try again'
  const body = { name: called.data, response: answer.data }
  const outcome = await addPasskey(await getDb(), viewer, await headers(), body, now())
  if (outcome === 'refused') return 'The device’s answer does not hold: it may have come too late. Try again'
  revalidatePath('/account')
  return null
}

/** Gives a passkey another name. */
export async function renameOwnPasskey(_before: FormState, form: FormData): Promise<FormState> {
  const viewer = await signedInViewer()
  const parsed = parseForm(renameForm, form)
  if (!parsed.ok) return parsed.state
  const { id, name } = parsed.value
  if ((await renamePasskey(await getDb(), viewer, id, name, now())) !== 'done') notFound()
  revalidatePath('/account')
  return { typed: {}, errors: {}, done: 'Renamed' }
}

/** Takes a passkey away. */
export async function removeOwnPasskey(form: FormData): Promise<void> {
  const viewer = await signedInViewer()
  const parsed = parseForm(removeForm, form)
  if (!parsed.ok) notFound()
  if ((await removePasskey(await getDb(), viewer, parsed.value.id, now())) !== 'done') notFound()
  revalidatePath('/account')
}
