import { type DBSchema, type IDBPDatabase, openDB } from 'idb'

/**
 * The marks of tests that are running: the instants of the taps and what was typed. A store of their own, apart from what
 * waits to be sent, written through to the disk at each tap: what localStorage holds may be lost with a dead battery,
 * since browsers write it out some seconds later, and a minute later where much was written.
 */
interface Schema extends DBSchema {
  marks: { key: string; value: string }
}

let opened: Promise<IDBPDatabase<Schema>> | null = null

function openMarks(): Promise<IDBPDatabase<Schema>> {
  opened ??= openDB<Schema>('wellround-marks', 1, {
    upgrade(db) {
      db.createObjectStore('marks')
    },
    // A page of a newer edition wants to change the store: let it, and open anew when needed.
    blocking: () => closeMarks(),
    terminated: () => {
      opened = null
    },
  }).catch((error) => {
    opened = null
    throw error
  })
  return opened
}

/** Closes the store of this page; the next use opens it again. */
export async function closeMarks(): Promise<void> {
  const was = opened
  opened = null
  if (was) (await was).close()
}

/** Writes the marks of a test. When this answers they are on the disk. Throws what the browser throws where it keeps nothing. */
export async function keepMarks(key: string, text: string): Promise<void> {
  const tx = (await openMarks()).transaction('marks', 'readwrite', { durability: 'strict' })
  await Promise.all([tx.store.put(text, key), tx.done])
}

/** The marks of a test as they were last written; null where there are none. */
export async function marksOf(key: string): Promise<string | null> {
  return (await (await openMarks()).get('marks', key)) ?? null
}

/** Removes the marks of a test that was saved or thrown away. */
export async function dropMarks(key: string): Promise<void> {
  const tx = (await openMarks()).transaction('marks', 'readwrite', { durability: 'strict' })
  await Promise.all([tx.store.delete(key), tx.done])
}

/** Removes the marks of every test that a person has running on this phone: when they leave. Their keys end in the person's id. */
export async function dropMarksOf(user: string): Promise<void> {
  const tx = (await openMarks()).transaction('marks', 'readwrite', { durability: 'strict' })
  for (const key of await tx.store.getAllKeys()) if (key.endsWith(`-${user}`)) await tx.store.delete(key)
  await tx.done
}
