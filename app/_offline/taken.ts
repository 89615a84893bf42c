import type { z } from 'zod'
import { openStore, type Picture, type Taken } from './store'

/** What was taken along is shown for a week; then it is too old to go by, and is removed. Records to be sent never are. */
export const AGE_MAX_MS = 7 * 24 * 60 * 60 * 1000

/**
 * Notes who is signed in on this phone. Whatever somebody else had taken along goes; what they have not sent stays,
 * unseen, until they sign in here again.
 */
export async function setPerson({ id, name }: Person): Promise<void> {
  const db = await openStore()
  const tx = db.transaction(['meta', 'taken'], 'readwrite')
  const meta = tx.objectStore('meta')
  if ((await meta.get('user')) !== id) await tx.objectStore('taken').clear()
  await meta.put(id, 'user')
  await meta.put(name, 'name')
  await tx.done
}

export type Person = { id: string; name: string }

/** Nobody is signed in any more: what was taken along goes, what is not sent stays unseen until its writer is back. */
export async function forgetPerson(): Promise<void> {
  const db = await openStore()
  const tx = db.transaction(['meta', 'taken'], 'readwrite')
  await Promise.all([tx.objectStore('meta').clear(), tx.objectStore('taken').clear(), tx.done])
}

/** Who was last signed in on this phone; null where nobody was, or they have signed out. */
export async function person(): Promise<Person | null> {
  const db = await openStore()
  const [id, name] = await Promise.all([db.get('meta', 'user'), db.get('meta', 'name')])
  return id === undefined ? null : { id, name: name ?? '' }
}

/** Keeps a well or a round on the phone; when this answers it is there. */
export async function take(taken: Taken): Promise<void> {
  const db = await openStore()
  const tx = db.transaction('taken', 'readwrite', { durability: 'strict' })
  await Promise.all([tx.store.put(taken), tx.done])
}

/** What was taken along, without its content. */
export type TakenLine = Omit<Taken, 'data' | 'pictures'>

/** The parts of what was taken along, without its content, newest first; what is too old is removed first. */
export async function takenList(user: string, nowMs: number): Promise<TakenLine[]> {
  const db = await openStore()
  const tx = db.transaction('taken', 'readwrite')
  const kept: TakenLine[] = []
  for (const { data: _, pictures: __, ...taken } of await tx.store.getAll()) {
    if (taken.user === user && isFresh(taken, nowMs)) kept.push(taken)
    else await tx.store.delete(taken.key)
  }
  await tx.done
  return kept.sort((a, b) => (a.takenAt < b.takenAt ? 1 : -1))
}

/** What was taken along under a key; null where it is not there, too old, somebody else's or not of this form. */
export async function takenData<T>(
  key: string,
  user: string,
  schema: z.ZodType<T>,
  nowMs: number,
): Promise<{ data: T; takenAt: string; pictures: readonly Picture[] } | null> {
  const taken = await (await openStore()).get('taken', key)
  if (!taken || taken.user !== user || !isFresh(taken, nowMs)) return null
  const parsed = schema.safeParse(taken.data)
  if (!parsed.success) return null
  return { data: parsed.data, takenAt: taken.takenAt, pictures: taken.pictures ?? [] }
}

/** A clock that was set back makes something look as if it came from the future: an hour of that is let pass. */
function isFresh({ takenAt }: Pick<Taken, 'takenAt'>, nowMs: number): boolean {
  const age = nowMs - Date.parse(takenAt)
  return age <= AGE_MAX_MS && age > -60 * 60 * 1000
}

export const wellKey = (wellId: string) => `well:${wellId}`
export const roundKey = (roundId: string) => `round:${roundId}`
