'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import type { Asking } from '@/app/ui/with-questions'
import { now, today } from '@/lib/clock'
import type { EntryDraft } from '@/lib/domain/logbook/kinds'
import { typedFields } from '@/lib/forms/form'
import { placeDraft, readPlace } from '@/lib/forms/place/read-place'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { measuredPlace } from '@/lib/records/place'
import { record } from '@/lib/records/record'
import { visibleWell } from '@/lib/records/wells'
import { hangPhotos, photosSent } from './photos-sent'

/** Stores a measured place, or its correction where `correctId` names the line that is corrected. */
export async function savePlace(
  wellId: string,
  correctId: string,
  _before: Asking,
  form: FormData,
): Promise<Asking> {
  const viewer = await deskViewer()
  const db = await getDb()
  if (!visibleWell(db, viewer, wellId)) notFound()
  const typed = typedFields(form)
  const again = (errors: Record<string, string>, message?: string): Asking => ({
    typed,
    errors,
    questions: {},
    ...(message === undefined ? {} : { message }),
  })
  const day = today()
  const reason = typed.reason?.trim() ?? ''
  const reading = readPlace(typed, viewer.units, day)
  const noReason: Record<string, string> =
    correctId !== '' && (reason === '' || reason.length > 500)
      ? { reason: 'Say in a few words, 500 characters or fewer, why the line is corrected' }
      : {}
  const photos = photosSent(form)
  if (!reading.ok || noReason.reason) {
    const chosen =
      photos.length > 0
        ? 'Nothing is stored yet. Choose the photos again where their fields are empty.'
        : undefined
    return again({ ...(reading.ok ? {} : reading.errors), ...noReason }, chosen)
  }
  const written = placeDraft(typed.visitId, wellId, reading)
  if (!written) return again({}, 'This form has lost its number: open it again from the place of the well')
  let draft: EntryDraft = written
  let measuredId = written.id
  if (correctId !== '') {
    const before = measuredPlace(db, viewer, wellId, correctId)
    if (!before) notFound()
    measuredId = before.id
    draft = {
      ...written,
      visitId: before.visitId,
      supersedes: before.spokenBy,
      payload: {
        kind: 'correction',
        reason,
        occurredOn: reading.on,
        occurredTime: reading.time,
        replacement: reading.fact,
      },
    }
  }
  const outcome = await record(db, viewer, [draft], now(), day)
  if (outcome.kind === 'no-such-well') notFound()
  if (outcome.kind === 'refused') {
    const taken = outcome.problems.some((problem) => problem.field === 'id')
    return again(
      {},
      taken
        ? 'This was saved already, with other figures. Open the place of the well to correct it.'
        : outcome.problems.map((problem) => problem.message).join(' '),
    )
  }
  const refused = await hangPhotos(db, viewer, measuredId, photos)
  revalidatePath('/', 'layout')
  const saved = correctId === '' ? 'yes' : 'corrected'
  redirect(paths.wellPlace(wellId, { saved, ...(refused ? { photos: 'refused' } : {}) }))
}
