import type Database from 'better-sqlite3'

const caches = new WeakMap<Database.Database, Map<string, Database.Statement<unknown[], unknown>>>()

/** A prepared statement, made once a connection. `Row` states the columns that the SQL selects. */
export function prepared<Row = unknown>(
  sqlite: Database.Database,
  sql: string,
): Database.Statement<unknown[], Row> {
  let cache = caches.get(sqlite)
  if (!cache) {
    cache = new Map()
    caches.set(sqlite, cache)
  }
  let statement = cache.get(sql)
  if (!statement) {
    statement = sqlite.prepare<unknown[], unknown>(sql)
    cache.set(sql, statement)
  }
  // SQL is text to the compiler: the row type is the promise of whoever wrote the SELECT.
  return statement as Database.Statement<unknown[], Row>
}
