import { createHash } from 'node:crypto'
import { takePhoto } from '@/lib/exchange/batch/photo'
import { takeBatch } from '@/lib/exchange/batch/take'
import type { Db } from '@/lib/records/db'
import { newId } from '@/lib/records/ids'
import { AT, aWell, joss, TODAY } from './batch'
import { photo } from './hostile-files'

export const NOW = Date.parse(AT)

/** How the way to the server behaves. */
type Way = 'open' | 'no signal' | 'answer lost' | 'signed out' | 'fault'
/** Sends what a phone keeps to a server in the same process; `way.is` may change between sendings. */
export function world(db: Db, now = { ms: NOW }) {
  const way: { is: Way; asked: number } = { is: 'open', asked: 0 }
  const fetch = async (url: string, init: { body: string | ArrayBuffer }): Promise<Response> => {
    way.asked += 1
    if (way.is === 'no signal') throw new TypeError('Failed to fetch')
    if (way.is === 'signed out') return Response.json({ wrong: 'Nobody', todo: 'x' }, { status: 401 })
    if (way.is === 'fault') return new Response('oops', { status: 502 })
    const answer = await serve(db, url, init.body)
    if (way.is === 'answer lost') throw new TypeError('Failed to fetch')
    return answer
  }
  return { way, now, world: { fetch: fetch as unknown as typeof globalThis.fetch, now: () => now.ms } }
}
async function serve(db: Db, url: string, body: string | ArrayBuffer): Promise<Response> {
  if (typeof body === 'string') {
    const taken = await takeBatch(db, joss, body, { at: AT, today: TODAY })
    return taken.ok
      ? Response.json(taken.reply)
      : Response.json(taken.refusal, { status: taken.refusal.status })
  }
  const about = Object.fromEntries(new URL(url, 'http://localhost').searchParams)
  return Response.json(await takePhoto(db, joss, about, new Uint8Array(body), AT))
}

/** A visit to a new well, as a phone keeps it. */
export async function visit(db: Db, typed: Record<string, string>, more: Record<string, unknown> = {}) {
  const id = newId()
  const wellId = await aWell(db, `W-${id}`)
  const savedAt = new Date(NOW).toISOString()
  const own = { id, user: 'joss', wellId, label: 'W', units: 'us' as const, savedAt }
  return { ...own, typed: { visitId: id, date: TODAY, ...typed }, ...more }
}
/** A photo as a phone keeps it. */
export async function aPhoto() {
  const bytes = await photo()
  const sha256 = createHash('sha256').update(bytes).digest('hex')
  const copy = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) as ArrayBuffer
  return { id: newId(), name: 'lid.jpg', type: 'image/jpeg', bytes: copy, sha256 }
}
/** How many lines the server's logbooks hold. */
export const lines = (db: Db) => Number(db.sqlite.prepare('SELECT COUNT(*) FROM "Entry"').pluck().get())
