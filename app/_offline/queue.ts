import { dropMarksOf } from './marks'
import { openStore, type QueuedPhoto, type QueuedVisit } from './store'

/** Sent records stay in the list for a day, so that a person can see that they arrived. */
const SHOWN_MS = 24 * 60 * 60 * 1000

const CHANNEL = 'wellround-queue'

/** Tells every page of this browser that the list has changed. */
export function tellChanged(): void {
  if (typeof BroadcastChannel === 'undefined') return
  const channel = new BroadcastChannel(CHANNEL)
  channel.postMessage('changed')
  channel.close()
}

/** Calls back whenever another page, or the worker, has changed the list. Answers how to stop. */
export function onChanged(callback: () => void): () => void {
  if (typeof BroadcastChannel === 'undefined') return () => undefined
  const channel = new BroadcastChannel(CHANNEL)
  channel.onmessage = callback
  return () => channel.close()
}

export type NewVisit = Pick<QueuedVisit, 'id' | 'user' | 'wellId' | 'label' | 'units' | 'typed' | 'savedAt'> &
  Partial<Pick<QueuedVisit, 'kind' | 'test' | 'marks' | 'stopId' | 'questions' | 'why' | 'state'>>
export type NewPhoto = Pick<QueuedPhoto, 'id' | 'name' | 'type' | 'bytes' | 'sha256'>

/** The oldest form of batch that can say each kind: a server that has not been renewed still takes visits. */
export const VERSION_OF: Readonly<Record<QueuedVisit['kind'], number>> = { visit: 1, test: 2, sheet: 2 }

/**
 * Writes a visit with its photos into the phone's store, all or nothing. When this answers, and only then, it may be
 * called saved: the browser has ended the transaction. Throws what the browser throws (see storageRefusal).
 */
export async function saveVisit(visit: NewVisit, photos: readonly NewPhoto[] = []): Promise<void> {
  const db = await openStore()
  const tx = db.transaction(['items', 'photos'], 'readwrite', { durability: 'strict' })
  const fresh = { why: [], tries: 0, notBefore: 0, state: 'saved' as const }
  const item = {
    ...fresh,
    kind: 'visit' as const,
    version: VERSION_OF[visit.kind ?? 'visit'],
    questions: {},
    sentAt: null,
    ...visit,
  }
  const puts: Promise<unknown>[] = []
  try {
    puts.push(tx.objectStore('items').put(item))
    for (const photo of photos)
      puts.push(tx.objectStore('photos').put({ ...fresh, ...photo, user: visit.user, visit: visit.id }))
    await Promise.all(puts)
    await tx.done
  } catch (error) {
    // Some browsers would keep the half that went well: nothing of it is to stay. The first error is the one to tell.
    for (const put of [...puts, tx.done]) put.catch(() => undefined)
    try {
      tx.abort()
    } catch {
      // It is over already, by the same error.
    }
    throw error
  }
  tellChanged()
}

/** What a person's list holds: records by the time of saving, and photos. Nothing of anybody else. */
export async function listOf(user: string): Promise<{ visits: QueuedVisit[]; photos: QueuedPhoto[] }> {
  const db = await openStore()
  const [visits, photos] = await Promise.all([
    db.getAllFromIndex('items', 'user', user),
    db.getAllFromIndex('photos', 'user', user),
  ])
  return { visits: visits.sort((a, b) => (a.savedAt < b.savedAt ? -1 : 1)), photos }
}

/** How many records and photos of a person are not sent yet, and how many there are of other people. */
export async function countUnsent(user: string): Promise<{ own: number; others: number }> {
  const db = await openStore()
  const [items, photos] = await Promise.all([
    db.getAll('items'),
    db.getAllKeysFromIndex('photos', 'user', user),
  ])
  const unsent = items.filter(({ state }) => state !== 'sent')
  const own = unsent.filter((item) => item.user === user).length
  // Photos of a visit that is on its way count with it; those that are left over count for themselves.
  const left = items.some((item) => item.user === user && item.state !== 'sent') ? 0 : photos.length
  return { own: own + left, others: unsent.length - unsent.filter((item) => item.user === user).length }
}

/** Puts a record back to be sent now. */
export async function sendAgain(id: string): Promise<void> {
  const db = await openStore()
  const tx = db.transaction(['items', 'photos'], 'readwrite')
  const item = await tx.objectStore('items').get(id)
  const again = { state: 'saved' as const, notBefore: 0, tries: 0 }
  if (item && item.state !== 'sent') await tx.objectStore('items').put({ ...item, ...again })
  for (const photo of await tx.objectStore('photos').index('visit').getAll(id))
    await tx.objectStore('photos').put({ ...photo, ...again })
  await tx.done
  tellChanged()
}

/** Deletes a record with its photos, or a photo that is left over. */
export async function forget(id: string): Promise<void> {
  const db = await openStore()
  const tx = db.transaction(['items', 'photos'], 'readwrite')
  await tx.objectStore('items').delete(id)
  await tx.objectStore('photos').delete(id)
  for (const key of await tx.objectStore('photos').index('visit').getAllKeys(id))
    await tx.objectStore('photos').delete(key)
  await tx.done
  tellChanged()
}

/** Removes from the list what was sent more than a day ago. `nowMs` since 1970. */
export async function tidy(nowMs: number): Promise<void> {
  const db = await openStore()
  const tx = db.transaction('items', 'readwrite')
  for (const item of await tx.store.getAll())
    if (item.sentAt !== null && nowMs - Date.parse(item.sentAt) > SHOWN_MS) await tx.store.delete(item.id)
  await tx.done
}

/** Removes everything that a person has on this phone: at sign-out. */
export async function wipe(user: string): Promise<void> {
  const db = await openStore()
  const tx = db.transaction(['items', 'photos', 'taken', 'meta'], 'readwrite')
  for (const key of await tx.objectStore('items').index('user').getAllKeys(user))
    await tx.objectStore('items').delete(key)
  for (const key of await tx.objectStore('photos').index('user').getAllKeys(user))
    await tx.objectStore('photos').delete(key)
  await tx.objectStore('taken').clear()
  await tx.objectStore('meta').clear()
  await tx.done
  await dropMarksOf(user)
  tellChanged()
}
