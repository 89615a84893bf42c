import Database from 'better-sqlite3'
import type { Db } from './db'

/**
 * The database as it stands at this instant, for reading alone: what others write meanwhile is not in it, so that tables
 * read one after the other fit together. Close it: an open one keeps the write-ahead log from being taken in.
 */
export function asItStands(db: Db): Db {
  const sqlite = new Database(db.file, { readonly: true, fileMustExist: true, timeout: 5000 })
  sqlite.exec('BEGIN')
  // The instant is that of the first reading.
  sqlite.prepare('SELECT COUNT(*) FROM "Setting"').get()
  return {
    ...db,
    sqlite,
    async close() {
      sqlite.close()
    },
  }
}
