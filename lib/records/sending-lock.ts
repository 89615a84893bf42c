import { dirname, join } from 'node:path'
import Database from 'better-sqlite3'
import { type Db, keepToOwner } from './db'

/**
 * Runs `work` unless another process, or this one, is sending already; then answers null. The lock is SQLite's own on a file
 * beside the database: the operating system lets go of it when a process dies, so that nothing has to be cleaned up.
 */
export async function whileSending<T>(db: Db, work: () => Promise<T>): Promise<T | null> {
  const file = join(dirname(db.file), 'reminders.lock')
  const lock = new Database(file, { timeout: 0 })
  try {
    if (!takes(lock)) return null
    keepToOwner(file)
    return await work()
  } finally {
    lock.close()
  }
}

function takes(lock: Database.Database): boolean {
  try {
    lock.exec('BEGIN EXCLUSIVE')
    return true
  } catch (error) {
    if (error instanceof Database.SqliteError && error.code === 'SQLITE_BUSY') return false
    throw error
  }
}
