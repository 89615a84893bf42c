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

/**
 * An INSERT of these columns, for a row that is known to be new. Measured on a table of eight indexes, one that says what
 * to do on a conflict costs five times as much: SQLite first copies every page that it may have to put back.
 */
export function insert(table: string, columns: readonly string[]): string {
  return `INSERT INTO "${table}" (${columns.map((c) => `"${c}"`).join(',')})
  VALUES (${columns.map(() => '?').join(',')})`
}

/** An UPDATE of these columns of the row whose first one, the key, is given last. */
export function update(table: string, columns: readonly string[]): string {
  const set = columns.slice(1).map((c) => `"${c}" = ?`)
  return `UPDATE "${table}" SET ${set.join(', ')} WHERE "${columns[0]}" = ?`
}
