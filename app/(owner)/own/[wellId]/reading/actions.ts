'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { ownViewer } from '@/app/ui/session'
import type { Asking } from '@/app/ui/with-questions'
import { now, today } from '@/lib/clock'
import { sentForm } from '@/lib/forms/form'
import { readVisit } from '@/lib/forms/visit-form'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { record } from '@/lib/records/record'
import { visitSetting } from '@/lib/records/visit-context'

/** What the household's form has; anything else that is sent along is left out. */
const FIELDS = ['visitId', 'date', 'hourMeter', 'volumeMeter', 'staticLevel', 'event', 'note']

/** Stores what the household read or saw, or shows the form again as it was typed. */
export async function saveOwnReading(wellId: string, _before: Asking, form: FormData): Promise<Asking> {
  const viewer = await ownViewer()
  const db = await getDb()
  const setting = visitSetting(db, viewer, wellId)
  if (!setting) notFound()
  const typed: Record<string, string> = {}
  for (const [name, value] of sentForm(form))
    if (typeof value === 'string' && (FIELDS.includes(name) || name.startsWith('answer:')))
      typed[name] = value
  const day = today()
  const reading = readVisit({ ...typed, by: viewer.name }, { ...setting, today: day, system: viewer.units })
  if (!reading.ok) return { typed, errors: reading.errors, questions: reading.questions }
  const outcome = await record(db, viewer, reading.drafts, now(), day)
  if (outcome.kind === 'no-such-well') notFound()
  if (outcome.kind === 'refused')
    return {
      typed,
      errors: {},
      questions: {},
      message: outcome.problems.map((problem) => problem.message).join(' '),
    }
  revalidatePath('/', 'layout')
  redirect(paths.ownWell(wellId, { saved: 'yes' }))
}
