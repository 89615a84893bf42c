'use server'

import { revalidatePath } from 'next/cache'
import { after } from 'next/server'
import { deskViewer } from '@/app/ui/session'
import { now } from '@/lib/clock'
import { outfitForm, personForm } from '@/lib/forms/accounts'
import { type FormState, parseForm } from '@/lib/forms/form'
import { reckonForm } from '@/lib/forms/reckon-form'
import { createUser } from '@/lib/records/accounts'
import { getDb } from '@/lib/records/open'
import { rebuild } from '@/lib/records/rebuild'
import { putReckonChoices, reckonSettings } from '@/lib/records/reckon-settings'
import { OUTFIT_KEY, putSetting } from '@/lib/records/settings'

/** Makes an account for an installer or a technician. */
export async function addPerson(_before: FormState, form: FormData): Promise<FormState> {
  const viewer = await deskViewer()
  const parsed = parseForm(personForm, form, ['password'])
  if (!parsed.ok) return parsed.state
  const outcome = await createUser(await getDb(), viewer, { ...parsed.value, ownerId: null }, now())
  if (outcome === 'email-taken') {
    return { typed: parsed.typed, errors: { email: 'There is an account with this email address already' } }
  }
  revalidatePath('/settings')
  return { typed: {}, errors: {}, done: `${parsed.value.name} can sign in now` }
}

/** Stores how the outfit calls itself on sheets. */
export async function saveOutfit(_before: FormState, form: FormData): Promise<FormState> {
  const viewer = await deskViewer()
  const parsed = parseForm(outfitForm, form)
  if (!parsed.ok) return parsed.state
  await putSetting(await getDb(), viewer, OUTFIT_KEY, parsed.value, now())
  return { typed: parsed.typed, errors: {}, done: 'Saved' }
}

/** Stores what was chosen about the reckoning, and reckons every well anew behind the answer. */
export async function saveReckoning(_before: FormState, form: FormData): Promise<FormState> {
  const viewer = await deskViewer()
  const parsed = parseForm(reckonForm, form)
  if (!parsed.ok) return parsed.state
  const db = await getDb()
  const { falseAlarmPercent: falseAlarmShare, scheme, ownerSheetsCount } = parsed.value
  const chosen = { falseAlarmShare, scheme, ownerSheetsCount }
  await putReckonChoices(db, viewer, { ...reckonSettings(db.sqlite).choices, ...chosen }, now())
  // A stop in the middle loses nothing: what is still stale is reckoned at the next start.
  after(() => rebuild(db, 'stale'))
  revalidatePath('/', 'layout')
  return { typed: parsed.typed, errors: {}, done: 'Saved. The wells are being reckoned anew' }
}
