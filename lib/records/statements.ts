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

/** An INSERT of these columns that becomes an UPDATE where the first one, the key, is there already. */
export function upsert(table: string, columns: readonly string[]): string {
  return `INSERT INTO "${table}" (${columns.map((c) => `"${c}"`).join(',')})
  VALUES (${columns.map(() => '?').join(',')})
  ON CONFLICT ("${columns[0]}") DO UPDATE SET ${columns
    .slice(1)
    .map((c) => `"${c}" = excluded."${c}"`)
    .join(', ')}`
}
