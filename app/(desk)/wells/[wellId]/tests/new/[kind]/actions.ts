'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import type { Asking } from '@/app/ui/with-questions'
import { now, today } from '@/lib/clock'
import { sendTest } from '@/lib/exchange/send-test'
import { typedFields } from '@/lib/forms/form'
import { TEST_KINDS } from '@/lib/forms/test/draft'
import { lineId } from '@/lib/forms/visit/lines'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'

/** Stores a test with what belongs to it, or answers with the form filled in as it was. */
export async function saveTest(
  wellId: string,
  kind: string,
  _before: Asking,
  form: FormData,
): Promise<Asking> {
  const viewer = await deskViewer()
  const db = await getDb()
  const known = TEST_KINDS.find((one) => one === kind)
  if (!known) notFound()
  const typed = typedFields(form)
  const sent = await sendTest(db, viewer, wellId, known, typed, { at: now(), today: today() })
  if (sent.kind === 'no-such-well') notFound()
  if (sent.kind === 'asked') return { typed, errors: sent.errors, questions: sent.questions }
  if (sent.kind === 'refused') return { typed, errors: {}, questions: {}, message: sent.message }
  revalidatePath('/', 'layout')
  redirect(paths.test(wellId, lineId(sent.visitId, known), { saved: sent.visitId }))
}
