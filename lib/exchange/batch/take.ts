import type { Viewer } from '@/lib/access/viewer'
import type { Day } from '@/lib/domain/quantity'
import type { Db } from '@/lib/records/db'
import { ITEMS_MAX, tooMuch } from './limits'
import {
  BATCH_VERSION,
  type BatchReply,
  batchSchema,
  type ItemAnswer,
  itemSchema,
  type WholeRefusal,
} from './shape'
import { type Outcome, takeItem } from './take-item'

export type Taken = { ok: true; reply: BatchReply } | { ok: false; refusal: WholeRefusal }

/**
 * Takes in a batch from a device. Each item goes the one way in by itself and gets its own answer: a bad one never
 * holds up the rest. The same item again is stored once. The order does not matter: an item that names one further
 * down is tried again after it.
 *
 * Shape   `text` the JSON as received. `clock`: the instant, and the day at the outfit.
 * Throws  nothing for an item that fails to be stored: that is told as "later", and `report` is called with the cause.
 */
export async function takeBatch(
  db: Db,
  viewer: Viewer,
  text: string,
  clock: { at: string; today: Day },
  report: (error: unknown) => void = console.error,
): Promise<Taken> {
  const read = readBatch(viewer, text)
  if ('status' in read) return { ok: false, refusal: read }
  const outcomes = new Map<number, Outcome>()
  let waiting = read.items.map((item, index) => ({ item, index }))
  for (;;) {
    for (const { item, index } of waiting) outcomes.set(index, await attempt(item))
    const left = waiting.filter(({ index }) => outcomes.get(index)?.outcome === 'later')
    // Another round only helps where this one has stored something that a waiting item may name.
    if (left.length === 0 || left.length === waiting.length) break
    waiting = left
  }
  const answers = read.items.map((item, index): ItemAnswer => {
    const outcome = outcomes.get(index)
    if (!outcome) throw new Error(`item ${index} of a batch got no answer`)
    return { index, id: idOf(item), ...outcome }
  })
  return { ok: true, reply: { version: BATCH_VERSION, answers } }

  async function attempt(item: unknown): Promise<Outcome> {
    const parsed = itemSchema.safeParse(item)
    if (!parsed.success) return unreadable(parsed.error.issues[0]?.path.join('.') ?? '')
    try {
      return await takeItem(db, viewer, parsed.data, clock)
    } catch (error) {
      report(error)
      return { outcome: 'later', why: 'The server could not store this just now. It will be sent again.' }
    }
  }
}

function readBatch(viewer: Viewer, text: string): { items: unknown[] } | WholeRefusal {
  const refused = tooMuch(text)
  if (refused) return refused
  const json = parsed(text)
  const batch = batchSchema.safeParse(json)
  if (!batch.success)
    return { status: 400, wrong: 'This is no batch of records', todo: 'Open Wellround anew, then send again' }
  const { version, user, items } = batch.data
  if (version > BATCH_VERSION)
    return {
      status: 409,
      wrong: `These records are of form ${version}; this server reads forms up to ${BATCH_VERSION}`,
      todo: 'They stay on the phone. Send them again when the server is up to date, or save them as a file',
    }
  if (user !== viewer.userId)
    return {
      status: 403,
      wrong: 'These records were written by somebody else',
      todo: 'They are sent when that person signs in on this phone',
    }
  if (items.length > ITEMS_MAX)
    return {
      status: 413,
      wrong: `A batch holds at most ${ITEMS_MAX} records`,
      todo: 'Send fewer at a time',
    }
  return { items }
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    // Not JSON: the shape below says so.
    return null
  }
}

function unreadable(field: string): Outcome {
  return {
    outcome: 'refused',
    why: [
      {
        field,
        wrong: 'This record is not in a form that the server reads',
        todo: 'It stays on the phone: save it as a file and write it anew from there',
      },
    ],
  }
}

function idOf(item: unknown): string | null {
  const id = typeof item === 'object' && item !== null && 'id' in item ? item.id : null
  return typeof id === 'string' ? id.slice(0, 60) : null
}
