'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import type { Asking } from '@/app/ui/with-questions'
import { now, today } from '@/lib/clock'
import { readVisit } from '@/lib/forms/visit-form'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { record } from '@/lib/records/record'
import { visitSetting } from '@/lib/records/visit-context'

/**
 * Stores what one of the water forms says: a step of a chain or an inspection, with the same reading as the visit form.
 * `chain`: the chain whose page comes next; '' for the well's water page.
 */
export async function saveWater(
  wellId: string,
  chain: string,
  _before: Asking,
  form: FormData,
): Promise<Asking> {
  const viewer = await deskViewer()
  const db = await getDb()
  const setting = visitSetting(db, viewer, wellId)
  if (!setting) notFound()
  const typed: Record<string, string> = {}
  for (const [name, value] of form)
    if (typeof value === 'string' && !name.startsWith('$')) typed[name] = value
  const day = today()
  const reading = readVisit(typed, { ...setting, today: day, system: viewer.units })
  if (!reading.ok) return { typed, errors: reading.errors, questions: reading.questions }
  const outcome = await record(db, viewer, reading.drafts, now(), day)
  if (outcome.kind === 'no-such-well') notFound()
  if (outcome.kind === 'refused') {
    const taken = outcome.problems.some((problem) => problem.field === 'id')
    const message = taken
      ? 'This was saved already, with other words. Open its line in the logbook to correct it.'
      : outcome.problems.map((problem) => problem.message).join(' ')
    return { typed, errors: {}, questions: {}, message }
  }
  revalidatePath('/', 'layout')
  const saved = reading.drafts[0]?.visitId ?? ''
  redirect(chain === '' ? paths.wellWater(wellId, { saved }) : paths.chain(wellId, chain, { saved }))
}
