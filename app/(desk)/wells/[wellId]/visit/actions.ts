'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import type { Asking } from '@/app/ui/with-questions'
import { now, today } from '@/lib/clock'
import { typedFields } from '@/lib/forms/form'
import { readVisit } from '@/lib/forms/visit-form'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { record } from '@/lib/records/record'
import { visitSetting } from '@/lib/records/visit-context'

export type VisitState = Asking

/** Stores a visit: every line of it, or none with the form filled in as it was. */
export async function saveVisit(wellId: string, _before: VisitState, form: FormData): Promise<VisitState> {
  const viewer = await deskViewer()
  const db = await getDb()
  const setting = visitSetting(db, viewer, wellId)
  if (!setting) notFound()
  const typed = typedFields(form)
  const day = today()
  const reading = readVisit(typed, { ...setting, today: day, system: viewer.units })
  if (!reading.ok) return { typed, errors: reading.errors, questions: reading.questions }
  const outcome = await record(db, viewer, reading.drafts, now(), day)
  if (outcome.kind === 'no-such-well') notFound()
  if (outcome.kind === 'refused') {
    const taken = outcome.problems.some((problem) => problem.field === 'id')
    const message = taken
      ? 'This visit was saved already, with other words. Open its lines in the logbook to correct them, or log a new visit from the well.'
      : outcome.problems.map((problem) => problem.message).join(' ')
    return { typed, errors: {}, questions: {}, message }
  }
  revalidatePath('/', 'layout')
  redirect(`${paths.well(wellId)}?saved=${reading.drafts[0]?.visitId ?? ''}`)
}
