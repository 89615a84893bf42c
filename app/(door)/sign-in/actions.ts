'use server'

import { headers } from 'next/headers'
import { redirect } from 'next/navigation'
import { applyCookies } from '@/app/ui/session'
import { localPath, signInForm } from '@/lib/forms/accounts'
import { type FormState, parseForm } from '@/lib/forms/form'
import { getDb } from '@/lib/records/open'
import { signIn } from '@/lib/records/sessions'

/** Lets a person in and leads them on to the page they wanted, if it is one of ours. */
export async function enter(_before: FormState, form: FormData): Promise<FormState> {
  const parsed = parseForm(signInForm, form, ['password'])
  if (!parsed.ok) return parsed.state
  const { email, password, next } = parsed.value
  const outcome = await signIn(await getDb(), email, password, await headers())
  if (outcome.kind === 'no-match') {
    return { typed: parsed.typed, errors: { password: 'The email address or the password does not match' } }
  }
  if (outcome.kind === 'wait') {
    return { typed: parsed.typed, errors: {}, message: tooMany(outcome.seconds) }
  }
  await applyCookies(outcome.cookies)
  redirect(localPath(next))
}

const tooMany = (seconds: number) =>
  `There were too many tries for this address. Wait ${seconds} ${seconds === 1 ? 'second' : 'seconds'}, then try again`
