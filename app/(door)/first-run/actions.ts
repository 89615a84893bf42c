'use server'

import { headers } from 'next/headers'
import { redirect } from 'next/navigation'
import { applyCookies } from '@/app/ui/session'
import { now } from '@/lib/clock'
import { firstRunForm } from '@/lib/forms/accounts'
import { type FormState, parseForm } from '@/lib/forms/form'
import { createFirstInstaller } from '@/lib/records/accounts'
import { getDb } from '@/lib/records/open'
import { signIn } from '@/lib/records/sessions'

/** Makes the first account and lets its person in. Open to everybody, and only while there is none. */
export async function makeFirstAccount(_before: FormState, form: FormData): Promise<FormState> {
  const parsed = parseForm(firstRunForm, form, ['password'])
  if (!parsed.ok) return parsed.state
  const db = await getDb()
  const outcome = await createFirstInstaller(db, parsed.value, now())
  if (outcome === 'not-first') redirect('/sign-in')
  const entered = await signIn(db, parsed.value.email, parsed.value.password, await headers())
  if (entered.kind !== 'signed-in') redirect('/sign-in')
  await applyCookies(entered.cookies)
  redirect('/')
}
