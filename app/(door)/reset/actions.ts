'use server'

import { redirect } from 'next/navigation'
import { now } from '@/lib/clock'
import { newPasswordForm } from '@/lib/forms/accounts'
import { type FormState, parseForm } from '@/lib/forms/form'
import { tooManyCodes } from '@/lib/forms/too-many'
import { paths } from '@/lib/paths'
import { tryCode } from '@/lib/records/code-patience'
import { getDb } from '@/lib/records/open'
import { acceptReset } from '@/lib/records/resets'

/** Sets a new password for whoever holds the code. They sign in with it themselves. */
export async function setNewPassword(_before: FormState, form: FormData): Promise<FormState> {
  const parsed = parseForm(newPasswordForm, form, ['password'])
  if (!parsed.ok) return parsed.state
  const db = await getDb()
  const { code, password } = parsed.value
  const outcome = await tryCode(
    db,
    null,
    () => acceptReset(db, code, password, now()),
    (answer) => answer === 'no-such-code',
  )
  if (typeof outcome === 'object') return { typed: parsed.typed, errors: {}, message: tooManyCodes(outcome) }
  if (outcome === 'no-such-code') return { typed: parsed.typed, errors: { code: NOT_OPEN } }
  redirect(paths.signInAfterReset())
}

const NOT_OPEN = 'No card or link with this code is open. It may be used or too old: ask for a new one'
