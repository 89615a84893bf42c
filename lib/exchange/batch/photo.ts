import { createHash } from 'node:crypto'
import { z } from 'zod'
import type { Viewer } from '@/lib/access/viewer'
import { uuidSchema } from '@/lib/domain/logbook/kinds'
import { attach } from '@/lib/records/attachments'
import type { Db } from '@/lib/records/db'
import { firstLineOfVisit } from '@/lib/records/entries'
import type { Outcome } from './take-item'

/** What a photo says of itself, in the address it is sent to. */
const photoSchema = z.object({
  version: z.literal('1'),
  user: z.string().min(1).max(120),
  /** Made on the device: the photo's own id for good, so that sending twice stores once. */
  id: uuidSchema,
  /** The visit it was taken on. */
  visit: uuidSchema,
  name: z.string().max(200),
  /** Of the bytes as sent: a photo that was cut or changed on the way is not taken. */
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
})

/**
 * Takes in one photo of a visit. It hangs on the first line of its visit; one that arrives before its visit is to be
 * sent again.
 *
 * Shape   `about` the query of the address, `bytes` the file as it is. `at` the instant.
 */
export async function takePhoto(
  db: Db,
  viewer: Viewer,
  about: Readonly<Record<string, string>>,
  bytes: Uint8Array,
  at: string,
): Promise<Outcome> {
  const parsed = photoSchema.safeParse(about)
  if (!parsed.success) return refused('This photo is not in a form that the server reads', SAVE)
  const { id, visit, name, sha256, user } = parsed.data
  if (user !== viewer.userId)
    return refused('This photo was taken by somebody else', 'It is sent when that person signs in here')
  if (createHash('sha256').update(bytes).digest('hex') !== sha256)
    return { outcome: 'later', why: 'The photo was damaged on the way. It will be sent again.' }
  const entryId = firstLineOfVisit(db.sqlite, visit)
  if (entryId === null) return { outcome: 'later', why: 'It waits for its visit, which has not arrived yet.' }
  const outcome = await attach(db, viewer, entryId, { id, name, bytes }, at)
  switch (outcome.kind) {
    case 'stored':
    case 'already':
      return { outcome: outcome.kind }
    case 'no-such-entry':
      return refused(
        'The well of this photo is not in the register any more, or is not yours to write to',
        SAVE,
      )
    case 'refused':
      return refused(outcome.message, SAVE)
  }
}

const SAVE = 'It stays on the phone: save it as a file, or delete it'

const refused = (wrong: string, todo: string): Outcome => ({
  outcome: 'refused',
  why: [{ field: 'photo', wrong, todo }],
})
