import 'server-only'
import { notFound } from 'next/navigation'
import type { Viewer } from '@/lib/access/viewer'
import { now } from '@/lib/clock'
import { ATTACHMENT_BYTES_MAX } from '@/lib/domain/limits'
import { type FormState, sentForm } from '@/lib/forms/form'
import { TOO_LARGE } from '@/lib/records/attachment-content'
import { attach } from '@/lib/records/attachments'
import { getDb } from '@/lib/records/open'

/** Hangs the photo or PDF of a form on a sheet of a well that the viewer may write to. */
export async function attachSheet(
  viewer: Viewer,
  entryId: string,
  form: FormData,
): Promise<{ kind: 'stored' | 'already' } | { kind: 'again'; state: FormState }> {
  const file = sentForm(form).get('file')
  const refuse = (message: string) =>
    ({ kind: 'again', state: { typed: {}, errors: { file: message } } }) as const
  if (!(file instanceof File) || (file.size === 0 && file.name === ''))
    return refuse('Choose a photo or a PDF of the sheet')
  // Before its bytes are copied: what is too large is not read at all.
  if (file.size > ATTACHMENT_BYTES_MAX) return refuse(TOO_LARGE)
  const sent = { name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) }
  const outcome = await attach(await getDb(), viewer, entryId, sent, now())
  if (outcome.kind === 'no-such-entry') notFound()
  return outcome.kind === 'refused' ? refuse(outcome.message) : { kind: outcome.kind }
}
