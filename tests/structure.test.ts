import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { expect, test } from 'vitest'
import { migrationSql } from '@/lib/records/migrate'
import { freshDb } from './setup/fresh-db'

function filesUnder(folder: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name)
    if (path === join('lib', 'records', 'generated')) return []
    return statSync(path).isDirectory() ? filesUnder(path) : [path]
  })
}
const sources = (...folders: string[]) =>
  folders.flatMap(filesUnder).filter((path) => /\.(ts|tsx|mjs)$/.test(path))
const offenders = (paths: readonly string[], wrong: RegExp) =>
  paths.filter((path) => wrong.test(readFileSync(path, 'utf8')))

test('the domain reads no clock, no dice, no environment, no disk, no network', () => {
  const impure = /Date\.now|new Date\(\)|Math\.random|process\.(env|cwd|argv|exit|std)|fetch\(|from 'node:/
  expect(offenders(sources('lib/domain'), impure)).toEqual([])
})

test('no file holds more than 400 lines', () => {
  const long = sources('app', 'lib', 'seed', 'tests').filter(
    (path) => readFileSync(path, 'utf8').split('\n').length > 400,
  )
  expect(long).toEqual([])
})

test('no test is skipped, focused or put off', () => {
  const self = join('tests', 'structure.test.ts')
  const wrong = /\b(it|test|describe)\.(skip|only|todo)\b/
  expect(
    offenders(
      sources('tests').filter((path) => path !== self),
      wrong,
    ),
  ).toEqual([])
})

test('the database is opened in lib/records and in tests, and nowhere else', () => {
  const opens = /from 'better-sqlite3'|generated\/client/
  expect(
    offenders(sources('app', 'lib', 'seed'), opens).filter(
      (path) => !path.startsWith(join('lib', 'records')),
    ),
  ).toEqual([])
})

test('the migrations lead to the schema', async () => {
  const migrated = await freshDb()
  const scratch = new Database(':memory:')
  scratch.exec(await migrationSql(`${migrated.file}.scratch`, null))
  expect(shapeOf(migrated.sqlite)).toEqual(shapeOf(scratch))
  scratch.close()
})

/** Tables by columns and references, indexes by their text. Columns added later stand last, so their order is no matter. */
function shapeOf(db: Database.Database) {
  const named = (type: 'table' | 'index') =>
    db
      .prepare(
        `SELECT "name", "sql" FROM sqlite_master WHERE "type" = ? AND "name" NOT LIKE 'sqlite_%' AND "name" NOT LIKE '_prisma%' ORDER BY "name"`,
      )
      .all(type) as { name: string; sql: string }[]
  const ofTable = (name: string) => ({
    name,
    columns: db
      .prepare('SELECT "name","type","notnull","dflt_value","pk" FROM pragma_table_info(?) ORDER BY "name"')
      .all(name),
    references: db
      .prepare(
        'SELECT "table","from","to","on_update","on_delete" FROM pragma_foreign_key_list(?) ORDER BY "from"',
      )
      .all(name),
  })
  return { tables: named('table').map(({ name }) => ofTable(name)), indexes: named('index') }
}

/** Newest fixes known of each, 2026-11: advisories of next, better-auth and zod; SQLite's write-ahead-log fault. */
test('no package lies below the floor of its security fixes', async () => {
  const { packages } = JSON.parse(readFileSync('package-lock.json', 'utf8')) as {
    packages: Record<string, { version: string }>
  }
  const atLeast = (name: string, floor: string) => {
    const have = packages[`node_modules/${name}`]?.version ?? ''
    expect(
      have.localeCompare(floor, 'en', { numeric: true }),
      `${name} ${have} against ${floor}`,
    ).toBeGreaterThanOrEqual(0)
  }
  atLeast('next', '16.4.3')
  atLeast('better-auth', '1.7.16')
  atLeast('zod', '4.6.7')
  const db = await freshDb()
  const sqlite = String(db.sqlite.prepare('SELECT sqlite_version()').pluck().get())
  expect(sqlite.localeCompare('3.51.3', 'en', { numeric: true })).toBeGreaterThanOrEqual(0)
})
