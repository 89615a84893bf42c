import 'server-only'
import { revalidatePath } from 'next/cache'
import { notFound } from 'next/navigation'
import type { Viewer } from '@/lib/access/viewer'
import { now, today } from '@/lib/clock'
import { SHEET_STORED_OTHERWISE } from '@/lib/exchange/send-sheet'
import { storeDrafts } from '@/lib/exchange/store-drafts'
import { typedFields } from '@/lib/forms/form'
import { intentOf, readSheet } from '@/lib/forms/sheet/read-sheet'
import { getDb } from '@/lib/records/open'
import { visibleWell } from '@/lib/records/wells'
import type { SheetState } from './sheet-state'

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
  const clock = { at: now(), today: day }
  const sent = await storeDrafts(db, viewer, wellId, reading.drafts, clock, SHEET_STORED_OTHERWISE)
  if (sent.kind === 'no-such-well') notFound()
  if (sent.kind === 'refused')
    return { kind: 'again', state: { typed, errors: {}, questions: {}, message: sent.message } }
  revalidatePath('/', 'layout')
  const sample = reading.drafts.find((draft) => draft.payload.kind === 'sample')
  return { kind: 'stored', sampleId: sample?.id ?? '' }
}
