import { mkdir } from 'node:fs/promises'
import { databaseFile, dataFolder } from './data-folder'
import { type Db, openDb } from './db'
import { announceTiles } from './map-tiles'

declare global {
  // Next loads a module once for each kind of entry point; the process must still hold one database.
  var wellroundDb: Promise<Db> | undefined
}

export { databaseFile, dataFolder }

/**
 * The one database of this process, opened on first use. Throws UnsafeSetup, each time anew, while the
 * place or the settings could lose what people write.
 */
export function getDb(): Promise<Db> {
  globalThis.wellroundDb ??= open()
  return globalThis.wellroundDb
}

async function open(): Promise<Db> {
  try {
    await mkdir(dataFolder(), { recursive: true, mode: 0o700 })
    const db = await openDb(databaseFile())
    announceTiles(db)
    return db
  } catch (error) {
    globalThis.wellroundDb = undefined
    throw error
  }
}
