import type { Db } from './db'
import { exclusively } from './turns'

/**
 * One indivisible write: takes its turn, opens the transaction at once as a writer, and
 * commits or leaves nothing. `work` must be synchronous, so that nothing can slip between.
 */
export function transaction<T>(db: Db, work: () => T): Promise<T> {
  return exclusively(() => db.sqlite.transaction(work).immediate())
}
