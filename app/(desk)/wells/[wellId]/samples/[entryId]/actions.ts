'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import { now } from '@/lib/clock'
import type { FormState } from '@/lib/forms/form'
import { paths } from '@/lib/paths'
import { ATTACHMENT_BYTES_MAX } from '@/lib/records/attachment-content'
import { attach } from '@/lib/records/attachments'
import { getDb } from '@/lib/records/open'

/** Hangs a photo or a PDF on a sheet. */
export async function attachFile(
  wellId: string,
  entryId: string,
  _before: FormState,
  form: FormData,
): Promise<FormState> {
  const viewer = await deskViewer()
  const file = form.get('file')
  const refuse = (message: string): FormState => ({ typed: {}, errors: { file: message } })
  if (!(file instanceof File) || (file.size === 0 && file.name === ''))
    return refuse('Choose a photo or a PDF of the sheet')
  // Before its bytes are copied: what is too large is not read at all.
  if (file.size > ATTACHMENT_BYTES_MAX)
    return refuse('The file is larger than 10 MB. Make the photo smaller, or scan with fewer points.')
  const sent = { name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) }
  const outcome = await attach(await getDb(), viewer, entryId, sent, now())
  if (outcome.kind === 'no-such-entry') notFound()
  if (outcome.kind === 'refused') return refuse(outcome.message)
  revalidatePath(paths.sample(wellId, entryId))
  redirect(paths.sample(wellId, entryId, { attached: outcome.kind === 'already' ? 'already' : 'yes' }))
}
