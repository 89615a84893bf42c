'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { demand, deskViewer } from '@/app/ui/session'
import { now } from '@/lib/clock'
import { ATTACHMENT_BYTES_MAX } from '@/lib/domain/limits'
import type { FormState } from '@/lib/forms/form'
import { paths } from '@/lib/paths'
import { TOO_LARGE } from '@/lib/records/attachment-content'
import { attach } from '@/lib/records/attachments'
import { getDb } from '@/lib/records/open'
import { adoptPosition } from '@/lib/records/place'

/** Puts the measured coordinate into the register. */
export async function takeOver(form: FormData): Promise<void> {
  const viewer = await deskViewer()
  await demand(viewer, 'well.edit')
  const wellId = String(form.get('wellId') ?? '')
  const source = form.get('source') === 'ties' ? 'ties' : 'fix'
  const outcome = await adoptPosition(
    await getDb(),
    viewer,
    wellId,
    Number(form.get('version')),
    source,
    now(),
  )
  if (outcome.kind === 'no-such-well') notFound()
  revalidatePath('/', 'layout')
  // Otherwise somebody was faster: the page shows what stands there now, and what is still on offer.
  redirect(paths.wellPlace(wellId, outcome.kind === 'stored' ? { saved: 'adopted' } : {}))
}

/** Hangs a photo on a measured place. */
export async function attachPlacePhoto(
  wellId: string,
  entryId: string,
  _before: FormState,
  form: FormData,
): Promise<FormState> {
  const viewer = await deskViewer()
  const about = String(form.get('about') ?? '').slice(0, 60)
  const refuse = (message: string): FormState => ({ typed: { about }, errors: { file: message } })
  const file = form.get('file')
  if (!(file instanceof File) || (file.size === 0 && file.name === ''))
    return refuse('Take or choose a photo')
  if (file.type === 'application/pdf')
    return refuse('A PDF cannot be shown beside the ties: take a photo of it')
  // Before its bytes are copied: what is too large is not read at all.
  if (file.size > ATTACHMENT_BYTES_MAX) return refuse(TOO_LARGE)
  const bytes = new Uint8Array(await file.arrayBuffer())
  const sent = { name: file.name, bytes, ...(about === '' ? {} : { about }) }
  const outcome = await attach(await getDb(), viewer, entryId, sent, now())
  if (outcome.kind === 'no-such-entry') notFound()
  if (outcome.kind === 'refused') return refuse(outcome.message)
  revalidatePath(paths.wellPlace(wellId))
  redirect(paths.wellPlace(wellId, { saved: outcome.kind === 'already' ? 'already' : 'attached' }))
}
