'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import type { Asking } from '@/app/ui/with-questions'
import { now, today } from '@/lib/clock'
import { sendNotReached } from '@/lib/exchange/send-closing'
import { typedFields } from '@/lib/forms/form'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { stopPage } from '@/lib/records/rounds'

/** Closes a stop that was not found or not reached, with the lines that say so in the well's logbook. */
export async function saveNotReached(
  roundId: string,
  stopId: string,
  _before: Asking,
  form: FormData,
): Promise<Asking> {
  const viewer = await deskViewer()
  const db = await getDb()
  const found = stopPage(db, viewer, stopId)
  if (!found || found.round.id !== roundId) notFound()
  const typed = typedFields(form)
  const clock = { at: now(), today: today() }
  const sent = await sendNotReached(db, viewer, found.stop.wellId, { ...typed, stopId }, clock)
  if (sent.kind === 'no-such-well') notFound()
  if (sent.kind === 'asked') return { typed, errors: sent.errors, questions: sent.questions }
  if (sent.kind === 'refused') return { typed, errors: {}, questions: {}, message: sent.message }
  revalidatePath('/', 'layout')
  redirect(`${paths.round(roundId, { closed: stopId })}#stop-${stopId}`)
}
