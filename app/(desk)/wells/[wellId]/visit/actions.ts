'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import type { Asking } from '@/app/ui/with-questions'
import type { Viewer } from '@/lib/access/viewer'
import { now, today } from '@/lib/clock'
import { sendVisit } from '@/lib/exchange/send-visit'
import { typedFields } from '@/lib/forms/form'
import { paths } from '@/lib/paths'
import { attach } from '@/lib/records/attachments'
import { firstLineOfVisit } from '@/lib/records/entries'
import { getDb } from '@/lib/records/open'
import { stopPage } from '@/lib/records/rounds'

export type VisitState = Asking

/** Stores a visit: every line of it, or none with the form filled in as it was. */
export async function saveVisit(wellId: string, _before: VisitState, form: FormData): Promise<VisitState> {
  const viewer = await deskViewer()
  const typed = typedFields(form)
  const db = await getDb()
  const sent = await sendVisit(db, viewer, wellId, typed, { at: now(), today: today() })
  if (sent.kind === 'no-such-well') notFound()
  if (sent.kind === 'asked') return { typed, errors: sent.errors, questions: sent.questions }
  if (sent.kind === 'refused') return { typed, errors: {}, questions: {}, message: sent.message }
  const refused = await attachPhotos(viewer, sent.visitId, form)
  revalidatePath('/', 'layout')
  const stop = typed.stopId ? stopPage(db, viewer, typed.stopId) : null
  if (stop) redirect(`${paths.round(stop.round.id, { closed: stop.stop.id })}#stop-${stop.stop.id}`)
  redirect(`${paths.well(wellId)}?saved=${sent.visitId}${refused ? '&photos=refused' : ''}`)
}

/** Without script the photos come with the form. The visit stands whatever becomes of them; true where one was refused. */
async function attachPhotos(viewer: Viewer, visitId: string, form: FormData): Promise<boolean> {
  const files = form.getAll('photo').filter((file): file is File => file instanceof File && file.size > 0)
  if (files.length === 0) return false
  const db = await getDb()
  const entryId = firstLineOfVisit(db.sqlite, visitId)
  if (entryId === null) return true
  let refused = false
  for (const file of files) {
    const bytes = new Uint8Array(await file.arrayBuffer())
    const outcome = await attach(db, viewer, entryId, { name: file.name, bytes }, now())
    refused ||= outcome.kind === 'refused' || outcome.kind === 'no-such-entry'
  }
  return refused
}
