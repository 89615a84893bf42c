import 'server-only'
import { revalidatePath } from 'next/cache'
import { notFound } from 'next/navigation'
import type { Asking } from '@/app/ui/with-questions'
import type { Viewer } from '@/lib/access/viewer'
import { now, today } from '@/lib/clock'
import { typedFields } from '@/lib/forms/form'
import { type Intent, readSheet } from '@/lib/forms/sheet/read-sheet'
import type { RowView } from '@/lib/forms/sheet/row-reading'
import { getDb } from '@/lib/records/open'
import { record } from '@/lib/records/record'
import { visibleWell } from '@/lib/records/wells'

export type SheetState = Asking & { views: Record<number, RowView> }

/** Stores a lab sheet for whoever may write to the well; answers its entry, or the form as it is shown again. */
export async function storeSheet(
  viewer: Viewer,
  wellId: string,
  form: FormData,
): Promise<{ kind: 'stored'; sampleId: string } | { kind: 'again'; state: SheetState }> {
  const db = await getDb()
  if (!visibleWell(db, viewer, wellId)) notFound()
  const typed = typedFields(form)
  const day = today()
  const reading = readSheet(typed, intentOf(typed.intent), { wellId, today: day, system: viewer.units })
  if (!reading.ok) return { kind: 'again', state: reading }
  const outcome = await record(db, viewer, reading.drafts, now(), day)
  if (outcome.kind === 'no-such-well') notFound()
  if (outcome.kind === 'refused') {
    const taken = outcome.problems.some((problem) => problem.field === 'id')
    const message = taken
      ? 'This sheet was stored already, with other words. Open it from the logbook to correct it, or open a new form.'
      : outcome.problems.map((problem) => problem.message).join(' ')
    return { kind: 'again', state: { typed, errors: {}, questions: {}, views: {}, message } }
  }
  revalidatePath('/', 'layout')
  const sample = reading.drafts.find((draft) => draft.payload.kind === 'sample')
  return { kind: 'stored', sampleId: sample?.id ?? '' }
}

/** The first button of the form, which Enter presses without script, only reads. */
function intentOf(text: string | undefined): Intent {
  return text === 'save' || text === 'more' || text === 'check' ? text : 'read'
}
