import { z } from 'zod'
import { uuidSchema } from '@/lib/domain/logbook/kinds'
import { TEST_KINDS } from '@/lib/forms/test/draft'

/** The newest form of a batch that this server reads. Older forms stay readable; their fixtures are in tests/exchange/batches. */
export const BATCH_VERSION = 2

const wellId = z.string().min(1).max(60)

/** A form as typed: read by the server as if it had just been sent, so that nothing typed is lost on the way. */
const asTyped = (fieldsMax: number) => ({
  /** The visit's own id, made where the form was opened. */
  id: uuidSchema,
  wellId,
  /** The units in which a number alone was meant, as the form showed them. */
  units: z.enum(['us', 'metric']),
  typed: z
    .record(z.string().max(120), z.string().max(20_000))
    .refine((typed) => Object.keys(typed).length <= fieldsMax),
  /** Instant of saving on the device; told, never reckoned with: a device's clock may be wrong. */
  savedAt: z.string().max(40).optional(),
})
const visit = z.strictObject({ kind: z.literal('visit'), ...asTyped(400) })

/** A well test; its form holds up to 500 readings of two fields. Since form 2. */
const test = z.strictObject({ kind: z.literal('test'), test: z.enum(TEST_KINDS), ...asTyped(1_100) })

/** A lab sheet; its form holds up to 300 rows of seven fields, with questions. Since form 2. */
const sheet = z.strictObject({ kind: z.literal('sheet'), ...asTyped(3_000) })

/** Lines of a logbook as a program made them; each is checked by the one way in. */
const entries = z.strictObject({
  kind: z.literal('entries'),
  id: uuidSchema,
  entries: z.array(z.unknown()).min(1).max(200),
  savedAt: z.string().max(40).optional(),
})

export const itemSchema = z.discriminatedUnion('kind', [visit, test, sheet, entries])
export type BatchItem = z.infer<typeof itemSchema>

/** A batch as sent. Its items are looked at one by one, so that a bad one spoils no other. */
export const batchSchema = z.object({
  version: z.number().int().min(1),
  /** Who wrote the items: they are taken from nobody else. */
  user: z.string().min(1).max(120),
  device: z.string().max(60),
  items: z.array(z.unknown()),
})

/** What is wrong with an item, where, and what to do about it. */
export type Refusal = { field: string; wrong: string; todo: string }

/** What became of one item. Only `stored` and `already` let the device forget it. */
export type ItemAnswer = { index: number; id: string | null } & (
  | { outcome: 'stored' | 'already' }
  | {
      outcome: 'refused'
      why: Refusal[]
      /** Odd values of a form, to be answered on the device. */
      questions?: Record<string, { message: string; choices: readonly { value: string; label: string }[] }>
    }
  /** Nothing is wrong with it, and it cannot be stored yet: send it again. */
  | { outcome: 'later'; why: string }
)

export type BatchReply = { version: number; answers: ItemAnswer[] }

/** A batch that is refused as a whole: nothing of it was stored, and the device keeps all of it. */
export type WholeRefusal = { status: 400 | 403 | 409 | 413; wrong: string; todo: string }
