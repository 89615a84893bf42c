import type { Viewer } from '@/lib/access/viewer'
import { now } from '@/lib/clock'
import { ATTACHMENT_BYTES_MAX } from '@/lib/domain/limits'
import { MARK_ROWS, markField, markPhoto, PLACE_PHOTOS } from '@/lib/forms/place/rows'
import { attach } from '@/lib/records/attachments'
import type { Db } from '@/lib/records/db'

type Sent = { file: File; about: string }

/** The photos of a sent form, each with what it shows: a mark by its name, the head, the way in, the sketch. */
export function photosSent(form: FormData): Sent[] {
  const at = (field: string, about: string): Sent[] => {
    const file = form.get(field)
    return file instanceof File && file.size > 0 ? [{ file, about }] : []
  }
  const marks = Array.from({ length: MARK_ROWS }, (_, i) => {
    const name = String(form.get(markField(i + 1, 'Name')) ?? '').trim()
    return at(markPhoto(i + 1), name)
  })
  return [...marks.flat(), ...PLACE_PHOTOS.flatMap(({ field, about }) => at(field, about))]
}

/** Hangs them on the measured line, which stands whatever becomes of them. True where one could not be kept. */
export async function hangPhotos(
  db: Db,
  viewer: Viewer,
  entryId: string,
  photos: readonly Sent[],
): Promise<boolean> {
  let refused = false
  for (const { file, about } of photos) {
    // What is too large is not read at all, and a PDF cannot be shown beside the ties.
    if (file.size > ATTACHMENT_BYTES_MAX || file.type === 'application/pdf') {
      refused = true
      continue
    }
    const bytes = new Uint8Array(await file.arrayBuffer())
    const outcome = await attach(db, viewer, entryId, { name: file.name, bytes, about }, now())
    refused ||= outcome.kind === 'refused' || outcome.kind === 'no-such-entry'
  }
  return refused
}
