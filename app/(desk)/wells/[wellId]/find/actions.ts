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

/** Writes down that somebody looked for the head and found it, or did not. */
export async function saveSearch(wellId: string, _before: Asking, form: FormData): Promise<Asking> {
  const viewer = await deskViewer()
  const db = await getDb()
  const setting = visitSetting(db, viewer, wellId)
  if (!setting) notFound()
  const typed = typedFields(form)
  const outcome = typed.event === 'found' ? 'found' : 'not-found'
  const day = today()
  const { visitId = '', date = '', by = '', note = '' } = typed
  const fields = { visitId, date, by, note, event: outcome }
  const reading = readVisit(fields, { ...setting, today: day, system: viewer.units })
  if (!reading.ok) return { typed, errors: reading.errors, questions: reading.questions }
  const stored = await record(db, viewer, reading.drafts, now(), day)
  if (stored.kind === 'no-such-well') notFound()
  if (stored.kind === 'refused') {
    const taken = stored.problems.some((problem) => problem.field === 'id')
    const message = taken
      ? 'This was saved already, with another answer. Open its line in the logbook to correct it.'
      : stored.problems.map((problem) => problem.message).join(' ')
    return { typed, errors: {}, questions: {}, message }
  }
  revalidatePath('/', 'layout')
  redirect(paths.findWell(wellId, { saved: outcome }))
}
