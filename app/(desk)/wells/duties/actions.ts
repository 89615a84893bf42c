'use server'

import { revalidatePath } from 'next/cache'
import { deskViewer } from '@/app/ui/session'
import { now, today } from '@/lib/clock'
import { dutyFieldsOf, dutyForm } from '@/lib/forms/duty-form'
import { parseForm } from '@/lib/forms/form'
import type { RegisterState } from '@/lib/forms/register-state'
import { addDutyToWells } from '@/lib/records/duties'
import { getDb } from '@/lib/records/open'
import { chosenWells } from './chosen'

/** Gives all chosen wells the duty that the form states, in one step. */
export async function giveDuty(_before: RegisterState, form: FormData): Promise<RegisterState> {
  const viewer = await deskViewer()
  const parsed = parseForm(dutyForm(viewer.units, today()), form)
  if (!parsed.ok) return parsed.state
  const db = await getDb()
  const params = Object.fromEntries(
    ['q', 'area', 'owner', 'retired', 'all'].map((name) => [name, String(form.get(name) ?? '')]),
  )
  const { ids } = chosenWells(db, viewer, { ...params, ids: form.getAll('ids').map(String) })
  const { given, had, missing } = await addDutyToWells(db, viewer, ids, dutyFieldsOf(parsed.value), now())
  revalidatePath('/', 'layout')
  const sentences = [
    `${parsed.value.name}: given to ${given} ${given === 1 ? 'well' : 'wells'}.`,
    ...(had > 0 ? [`${had} had it already and kept its limits.`] : []),
    ...(missing > 0 ? [`${missing} of those chosen are no longer in the register.`] : []),
  ]
  return { typed: parsed.typed, errors: {}, done: sentences.join(' ') }
}
