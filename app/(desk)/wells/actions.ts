'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import { now, today } from '@/lib/clock'
import { parseForm } from '@/lib/forms/form'
import { clash, type RegisterState } from '@/lib/forms/register-state'
import { wellFieldsOf, wellForm } from '@/lib/forms/well-form'
import { wellFormTexts } from '@/lib/forms/well-form-texts'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { createWell, updateWell, type WellWrite, wellWithOwner } from '@/lib/records/wells'

/** Puts the well that the form states in the register. */
export async function addWell(_before: RegisterState, form: FormData): Promise<RegisterState> {
  const viewer = await deskViewer()
  const parsed = parseForm(wellForm(viewer.units, today()), form)
  if (!parsed.ok) return parsed.state
  const fields = wellFieldsOf(parsed.value, parsed.typed, null)
  return answer(await createWell(await getDb(), viewer, fields, now()), parsed.typed)
}

/** Changes a well. Where somebody else has changed it since the form was opened, shows both and stores nothing. */
export async function changeWell(
  wellId: string,
  _before: RegisterState,
  form: FormData,
): Promise<RegisterState> {
  const viewer = await deskViewer()
  const version = Number(form.get('version'))
  const parsed = parseForm(wellForm(viewer.units, today()), form)
  const typed = parsed.ok ? parsed.typed : parsed.state.typed
  if (!parsed.ok) return { ...parsed.state, typed: { ...typed, version: String(version) } }
  const db = await getDb()
  const before = wellWithOwner(db, viewer, wellId)
  if (!before) notFound()
  const fields = wellFieldsOf(parsed.value, typed, { well: before.well, system: viewer.units })
  const outcome = await updateWell(db, viewer, wellId, version, fields, now())
  if (outcome.kind === 'changed-since') {
    const current = wellWithOwner(db, viewer, wellId) ?? before
    const stored = wellFormTexts(current.well, current.owner, viewer.units, current.models)
    return clash(typed, stored, current.well.version)
  }
  return answer(outcome, { ...typed, version: String(version) })
}

function answer(outcome: WellWrite, typed: RegisterState['typed']): RegisterState {
  switch (outcome.kind) {
    case 'stored':
      revalidatePath('/', 'layout')
      return redirect(paths.well(outcome.id))
    case 'label-taken':
      return { typed, errors: { label: outcome.message } }
    case 'changed-since':
      throw new Error('only an edit can clash, and it is answered where it is made')
    case 'no-such-well':
      return notFound()
  }
}
