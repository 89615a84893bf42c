import { mkdir } from 'node:fs/promises'
import { resolve } from 'node:path'
import { type Db, openDb } from './db'
import { announceTiles } from './map-tiles'

declare global {
  // Next loads a module once for each kind of entry point; the process must still hold one database.
  var wellroundDb: Promise<Db> | undefined
}

/** The folder that holds everything worth backing up: the database and the sign-in secret. */
export function dataFolder(): string {
  // The data folder is no part of the program: the bundler must not follow it.
  return resolve(/*turbopackIgnore: true*/ process.env.WELLROUND_DATA ?? 'data')
}

/** The database file within the data folder. */
export function databaseFile(): string {
  return resolve(dataFolder(), 'wellround.db')
}

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
