'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import { now, today } from '@/lib/clock'
import { dutyFieldsOf, dutyForm, dutyFormTexts } from '@/lib/forms/duty-form'
import { parseForm } from '@/lib/forms/form'
import { clash, type RegisterState } from '@/lib/forms/register-state'
import { paths } from '@/lib/paths'
import { addDuty, updateDuty, visibleDuty } from '@/lib/records/duties'
import { getDb } from '@/lib/records/open'

/** Gives one well the duty that the form states. */
export async function giveOneDuty(
  wellId: string,
  _before: RegisterState,
  form: FormData,
): Promise<RegisterState> {
  const viewer = await deskViewer()
  const parsed = parseForm(dutyForm(viewer.units, today()), form)
  if (!parsed.ok) return parsed.state
  const outcome = await addDuty(await getDb(), viewer, wellId, dutyFieldsOf(parsed.value), now())
  if (outcome.kind === 'no-such-duty') notFound()
  if (outcome.kind === 'already-there') return { typed: parsed.typed, errors: { name: outcome.message } }
  revalidatePath('/', 'layout')
  redirect(paths.well(wellId))
}

/** Changes or retires a duty. Where somebody else has changed it since, shows both and stores nothing. */
export async function changeDuty(
  dutyId: string,
  _before: RegisterState,
  form: FormData,
): Promise<RegisterState> {
  const viewer = await deskViewer()
  const version = Number(form.get('version'))
  const retired = form.get('retired') === '1'
  const kept = { version: String(version), ...(retired ? { retired: '1' } : {}) }
  const parsed = parseForm(dutyForm(viewer.units, today()), form)
  if (!parsed.ok) return { ...parsed.state, typed: { ...parsed.state.typed, ...kept } }
  const typed = { ...parsed.typed, ...kept }
  const db = await getDb()
  const outcome = await updateDuty(db, viewer, dutyId, version, dutyFieldsOf(parsed.value), retired, now())
  switch (outcome.kind) {
    case 'no-such-duty':
      return notFound()
    case 'already-there':
      return { typed, errors: { name: outcome.message } }
    case 'changed-since':
      return clash(typed, dutyFormTexts(outcome.current, viewer.units), outcome.current.version)
    case 'stored': {
      const duty = visibleDuty(db, viewer, dutyId)
      revalidatePath('/', 'layout')
      return redirect(duty ? paths.well(duty.wellId) : paths.due())
    }
  }
}
