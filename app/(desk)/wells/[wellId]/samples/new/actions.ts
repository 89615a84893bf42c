'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import type { Asking } from '@/app/ui/with-questions'
import { now, today } from '@/lib/clock'
import { type Intent, readSheet } from '@/lib/forms/sheet/read-sheet'
import type { RowView } from '@/lib/forms/sheet/row-reading'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { record } from '@/lib/records/record'
import { visibleWell } from '@/lib/records/wells'

export type SheetState = Asking & { views: Record<number, RowView> }

/** Stores a lab sheet, or shows it again as it was typed, with how each row reads and what has to be asked. */
export async function saveSheet(wellId: string, _before: SheetState, form: FormData): Promise<SheetState> {
  const viewer = await deskViewer()
  const db = await getDb()
  if (!visibleWell(db, viewer, wellId)) notFound()
  const typed: Record<string, string> = {}
  for (const [name, value] of form)
    if (typeof value === 'string' && !name.startsWith('$')) typed[name] = value
  const day = today()
  const reading = readSheet(typed, intentOf(typed.intent), { wellId, today: day, system: viewer.units })
  if (!reading.ok) return reading
  const outcome = await record(db, viewer, reading.drafts, now(), day)
  if (outcome.kind === 'no-such-well') notFound()
  if (outcome.kind === 'refused') {
    const taken = outcome.problems.some((problem) => problem.field === 'id')
    const message = taken
      ? 'This sheet was stored already, with other words. Open it from the logbook to correct it, or open a new form.'
      : outcome.problems.map((problem) => problem.message).join(' ')
    return { typed, errors: {}, questions: {}, views: {}, message }
  }
  const sample = reading.drafts.find((draft) => draft.payload.kind === 'sample')
  revalidatePath('/', 'layout')
  redirect(paths.sample(wellId, sample?.id ?? '', { saved: 'yes' }))
}

/** The first button of the form, which Enter presses without script, only reads. */
function intentOf(text: string | undefined): Intent {
  return text === 'save' || text === 'more' || text === 'check' ? text : 'read'
}
