import { z } from 'zod'
import { TEST_KINDS } from '@/lib/forms/test/draft'
import { FILE_VERSION } from './export-file'
import { tellChanged, VERSION_OF } from './queue'
import { sha256 } from './sha256'
import { openStore, type QueuedPhoto, type QueuedVisit } from './store'

/** The form of the files that export-file.ts writes. */
const refusal = z.object({ field: z.string(), wrong: z.string(), todo: z.string() })
const id = z.uuid()
const waiting = {
  id,
  user: z.string().min(1),
  why: z.array(refusal).default([]),
}
const typed = z.object({
  ...waiting,
  wellId: z.string().min(1),
  label: z.string(),
  units: z.enum(['us', 'metric']),
  typed: z.record(z.string(), z.string()),
  stopId: z.string().optional(),
  questions: z
    .record(
      z.string(),
      z.object({
        message: z.string(),
        choices: z.array(z.object({ value: z.string(), label: z.string() })),
      }),
    )
    .default({}),
  savedAt: z.string(),
})
const record = z.discriminatedUnion('kind', [
  typed.extend({ kind: z.literal('visit') }),
  typed.extend({ kind: z.literal('sheet') }),
  typed.extend({ kind: z.literal('test'), test: z.enum(TEST_KINDS), marks: z.string().optional() }),
])
const photo = z.object({
  ...waiting,
  visit: id,
  name: z.string(),
  type: z.string(),
  sha256: z.string(),
  base64: z.base64(),
})
const file = z.object({
  form: z.literal('wellround-unsent'),
  version: z.number().int(),
  user: z.string(),
  records: z.array(z.unknown()),
  photos: z.array(z.unknown()),
})

/** `back`: records put in line. `known`: records that lie here already. `spoilt`: what could not be read, and is left out. */
export type ReadBack =
  | { ok: true; back: number; photos: number; known: number; spoilt: number }
  | { ok: false; says: string }

/**
 * Puts what a file of unsent records holds back in line on this phone, to be sent as if it had been written here: the
 * way back from the last resort, on the same phone or another. Only for the person who wrote it. What lies here already
 * stays as it is; ids are kept, so that whatever the server has already is not stored twice.
 */
export async function readBack(user: string, text: string): Promise<ReadBack> {
  const parsed = file.safeParse(jsonOf(text))
  if (!parsed.success) return { ok: false, says: 'This is no file of unsent records, or it was cut short.' }
  const { version, user: writer, records, photos } = parsed.data
  if (version > FILE_VERSION)
    return { ok: false, says: 'This file was written by a newer Wellround. Open this page anew with signal.' }
  if (writer !== user)
    return {
      ok: false,
      says: 'This file was written by somebody else: it can be read back when they sign in.',
    }
  const items = records.flatMap((one) => ofUser(record.safeParse(one), user))
  const pictures = await Promise.all(photos.map((one) => pictureOf(ofUser(photo.safeParse(one), user)[0])))
  const whole = pictures.filter((one) => one !== null)
  const put = await putBack(items, whole)
  const spoilt = records.length - items.length + pictures.length - whole.length
  return { ok: true, ...put, spoilt }
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    // Not JSON: the shape says so.
    return null
  }
}

function ofUser<T extends { user: string }>(parsed: z.ZodSafeParseResult<T>, user: string): T[] {
  return parsed.success && parsed.data.user === user ? [parsed.data] : []
}

/** A photo with its bytes; null where it cannot be read, or is not the one that was saved. */
async function pictureOf(saved: z.infer<typeof photo> | undefined): Promise<QueuedPhoto | null> {
  if (!saved) return null
  const { base64, ...rest } = saved
  const bytes = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0)).buffer
  return (await sha256(bytes)) === rest.sha256 ? { ...rest, ...AGAIN, bytes } : null
}

const AGAIN = { state: 'saved' as const, tries: 0, notBefore: 0 }

/** All of it or nothing, as when it was first saved. */
async function putBack(
  items: readonly z.infer<typeof record>[],
  pictures: readonly QueuedPhoto[],
): Promise<{ back: number; photos: number; known: number }> {
  const tx = (await openStore()).transaction(['items', 'photos'], 'readwrite', { durability: 'strict' })
  const there = new Set(await tx.objectStore('items').getAllKeys())
  const fresh = items.filter((item) => !there.has(item.id))
  for (const item of fresh) await tx.objectStore('items').put(inLine(item))
  const lying = new Set(await tx.objectStore('photos').getAllKeys())
  const missing = pictures.filter((picture) => !lying.has(picture.id))
  for (const picture of missing) await tx.objectStore('photos').put(picture)
  await tx.done
  tellChanged()
  return { back: fresh.length, photos: missing.length, known: items.length - fresh.length }
}

/** A record of a file as it waits on the phone. */
function inLine({ stopId, ...item }: z.infer<typeof record>): QueuedVisit {
  const { marks, ...rest } = item.kind === 'test' ? item : { ...item, marks: undefined }
  return {
    ...rest,
    ...AGAIN,
    version: VERSION_OF[item.kind],
    sentAt: null,
    ...(stopId ? { stopId } : {}),
    ...(marks ? { marks } : {}),
  }
}
