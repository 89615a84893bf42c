'use server'

import { headers } from 'next/headers'
import { redirect } from 'next/navigation'
import { applyCookies, ownViewer } from '@/app/ui/session'
import { now } from '@/lib/clock'
import { addHouseholdForm, joinForm } from '@/lib/forms/accounts'
import { type FormState, parseForm } from '@/lib/forms/form'
import { tooManyCodes } from '@/lib/forms/too-many'
import { tryCode } from '@/lib/records/code-patience'
import { acceptInvitation, joinHousehold } from '@/lib/records/invitations'
import { getDb } from '@/lib/records/open'
import { signIn } from '@/lib/records/sessions'

/** Makes the account that a card stands for, and lets its person in. The code is the permission. */
export async function join(_before: FormState, form: FormData): Promise<FormState> {
  const parsed = parseForm(joinForm, form, ['password'])
  if (!parsed.ok) return parsed.state
  const db = await getDb()
  const { code, ...person } = parsed.value
  const outcome = await tryCode(
    db,
    null,
    () => acceptInvitation(db, code, person, now()),
    (answer) => answer === 'no-such-invitation',
  )
  if (typeof outcome === 'object') return { typed: parsed.typed, errors: {}, message: tooManyCodes(outcome) }
  if (outcome === 'no-such-invitation') return { typed: parsed.typed, errors: { code: NOT_OPEN } }
  if (outcome === 'email-taken') return { typed: parsed.typed, errors: { email: TAKEN } }
  const entered = await signIn(db, person.email, person.password, await headers())
  if (entered.kind !== 'signed-in') redirect('/sign-in')
  await applyCookies(entered.cookies)
  redirect('/own')
}

/** Adds the household of a card to the account of whoever is signed in. */
export async function addHousehold(_before: FormState, form: FormData): Promise<FormState> {
  const viewer = await ownViewer()
  const parsed = parseForm(addHouseholdForm, form)
  if (!parsed.ok) return parsed.state
  const db = await getDb()
  const outcome = await tryCode(
    db,
    viewer.userId,
    () => joinHousehold(db, viewer, parsed.value.code, now()),
    (answer) => answer === 'no-such-invitation',
  )
  if (typeof outcome === 'object') return { typed: parsed.typed, errors: {}, message: tooManyCodes(outcome) }
  if (outcome === 'no-such-invitation') return { typed: parsed.typed, errors: { code: NOT_OPEN } }
  if (outcome === 'already') return { typed: parsed.typed, errors: { code: YOURS_ALREADY } }
  redirect('/own')
}

const YOURS_ALREADY =
  'You see the wells of this household already. The card is still good for somebody else of it'
const NOT_OPEN =
  'No card with this code is open. Look at it again; if it was used or is too old, ask for a new one'
const TAKEN = 'There is an account with this email address already. Sign in with it, or use another address'
