import { linkSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { afterAll, describe, expect, test } from 'vitest'
import { openDb } from '@/lib/records/db'
import { migrate } from '@/lib/records/migrate'
import { checkPlace, checkSettings, type Settings, UnsafeSetup } from '@/lib/records/soundness'
import { freshDb } from '../setup/fresh-db'

const folder = mkdtempSync(join(tmpdir(), 'wellround-soundness-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const SOUND: Settings = {
  journalMode: 'wal',
  synchronous: 2,
  foreignKeys: 1,
  busyTimeoutMs: 5000,
  sqliteVersion: '3.53.2',
}

describe('a start is refused in plain words', () => {
  test.each<[string, Partial<Settings>, RegExp]>([
    ['outside write-ahead logging', { journalMode: 'delete' }, /journal mode is "delete"/],
    ['when commits may roll back in a power cut', { synchronous: 1 }, /synchronous is 1/],
    ['when foreign keys are off', { foreignKeys: 0 }, /foreign keys are off/],
    ['when locks are not waited for', { busyTimeoutMs: 100 }, /100 ms/],
    ['on an SQLite with the write-ahead-log fault', { sqliteVersion: '3.51.2' }, /3\.51\.2/],
  ])('%s', (_, wrong, says) => {
    expect(() => checkSettings('x.db', 'sqlite', { ...SOUND, ...wrong })).toThrow(says)
    expect(() => checkSettings('x.db', 'sqlite', { ...SOUND, ...wrong })).toThrow(UnsafeSetup)
  })

  test('on a network file system', () => {
    const file = join(folder, 'net.db')
    expect(() => checkPlace(file, [{ point: folder, kind: 'nfs4' }])).toThrow(/network file system \(nfs4\)/)
    expect(() => checkPlace(file, [{ point: folder, kind: 'ext4' }])).not.toThrow()
  })

  test('through a link, soft or hard', () => {
    const real = join(folder, 'real.db')
    writeFileSync(real, '')
    symlinkSync(real, join(folder, 'soft.db'))
    expect(() => checkPlace(join(folder, 'soft.db'))).toThrow(/is a link/)
    linkSync(real, join(folder, 'hard.db'))
    expect(() => checkPlace(join(folder, 'hard.db'))).toThrow(/second name/)
  })

  test('in memory', () => {
    expect(() => checkPlace(':memory:')).toThrow(/must be a file/)
  })
})

test('3.51.3, 3.52.0 and 4.0.0 are new enough', () => {
  for (const sqliteVersion of ['3.51.3', '3.52.0', '4.0.0', '3.100.0']) {
    expect(() => checkSettings('x.db', 'sqlite', { ...SOUND, sqliteVersion })).not.toThrow()
  }
})

test('both connections of a real database are sound as opened', async () => {
  const db = await freshDb()
  expect(db.sqlite.pragma('journal_mode', { simple: true })).toBe('wal')
  expect(db.sqlite.pragma('synchronous', { simple: true })).toBe(2)
  const [row] = await db.prisma.$queryRaw<{ synchronous: bigint | number }[]>`PRAGMA synchronous`
  expect(Number(row?.synchronous)).toBe(2)
})

test('a file in another journal mode is brought to write-ahead logging before it is used', async () => {
  const file = join(folder, 'old-mode.db')
  await migrate(file)
  const raw = new Database(file)
  raw.pragma('journal_mode = DELETE')
  raw.close()
  const db = await openDb(file)
  expect(db.sqlite.pragma('journal_mode', { simple: true })).toBe('wal')
  await db.close()
})

test('a database of a newer version is refused before anything is changed', async () => {
  const file = join(folder, 'newer.db')
  await migrate(file)
  const raw = new Database(file)
  raw.exec(
    `INSERT INTO _prisma_migrations (id, checksum, migration_name, applied_steps_count) VALUES ('x', 'x', '99990101000000_later', 1)`,
  )
  raw.close()
  await expect(migrate(file)).rejects.toThrow(/newer version.*99990101000000_later/)
})

test('migrating twice applies nothing the second time', async () => {
  const file = join(folder, 'twice.db')
  expect((await migrate(file)).length).toBeGreaterThan(0)
  expect(await migrate(file)).toEqual([])
})
