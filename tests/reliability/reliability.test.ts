import Database from 'better-sqlite3'
import { expect, test } from 'vitest'
import { newId } from '@/lib/records/ids'
import { record } from '@/lib/records/record'
import { bareWell } from '@/lib/records/well-fields'
import { createWell } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { installer } from '../setup/viewers'
import { killWriters } from './kills'

const AT = '2026-05-04T12:00:00.000Z'
const TODAY = '2026-05-04'

/** `npm run soak` does the same two hundred times. */
test('a process killed while it writes loses no acknowledged visit and leaves no half one', async () => {
  const figures = await killWriters(8, 80)
  expect(figures.acknowledged).toBeGreaterThanOrEqual(8)
  expect(figures).toMatchObject({ lost: 0, halfVisits: 0, unsound: 0 })
})

async function wellOf(db: Awaited<ReturnType<typeof freshDb>>): Promise<string> {
  const well = await createWell(db, installer, bareWell('R-1'), AT)
  if (well.kind !== 'stored') throw new Error(well.kind)
  return well.id
}

const visit = (wellId: string, text: string) => {
  const line = {
    wellId,
    visitId: newId(),
    occurredOn: TODAY,
    occurredTime: null,
    byName: null,
    supersedes: null,
    withdraws: null,
  }
  return [{ ...line, id: newId(), payload: { kind: 'note', text } }]
}

/** Outside write-ahead logging the adapter once lost acknowledged writes after one failed commit; prisma/orm 29933. */
test('a reader that holds the file and a refused write do not poison the writes that follow', async () => {
  const db = await freshDb()
  const wellId = await wellOf(db)
  const reader = new Database(db.file, { readonly: true })
  reader.exec('BEGIN')
  reader.prepare('SELECT COUNT(*) FROM "Entry"').get()
  await expect(db.prisma.owner.create({ data: { id: 'o', name: 'A', nameKey: 'a' } })).resolves.toBeTruthy()
  await expect(db.prisma.owner.create({ data: { id: 'o', name: 'B', nameKey: 'b' } })).rejects.toThrow()
  for (let i = 0; i < 5; i += 1) {
    expect((await record(db, installer, visit(wellId, `n${i}`), AT, TODAY)).kind).toBe('stored')
    await db.prisma.owner.create({ data: { id: `o${i}`, name: `C${i}`, nameKey: `c${i}` } })
  }
  reader.exec('COMMIT')
  reader.close()
  const other = new Database(db.file, { readonly: true })
  expect(other.prepare('SELECT COUNT(*) FROM "Entry"').pluck().get()).toBe(5)
  expect(other.prepare('SELECT COUNT(*) FROM "Owner"').pluck().get()).toBe(6)
  other.close()
})

test('a full disk refuses writes out loud, keeps what it acknowledged, and writes again when there is room', async () => {
  const db = await freshDb()
  const wellId = await wellOf(db)
  const pages = Number(db.sqlite.pragma('page_count', { simple: true }))
  db.sqlite.pragma(`max_page_count = ${pages + 2}`)
  let stored = 0
  let refused = 0
  for (let i = 0; i < 12; i += 1) {
    try {
      await record(db, installer, visit(wellId, 'x'.repeat(3000)), AT, TODAY)
      stored += 1
    } catch (error) {
      expect(String(error)).toMatch(/full/)
      refused += 1
    }
  }
  expect(refused).toBeGreaterThan(0)
  const kept = () => Number(db.sqlite.prepare('SELECT COUNT(*) FROM "Entry"').pluck().get())
  expect(kept()).toBe(stored)
  db.sqlite.pragma('max_page_count = 1073741823')
  expect((await record(db, installer, visit(wellId, 'room again'), AT, TODAY)).kind).toBe('stored')
  expect(kept()).toBe(stored + 1)
  expect(db.sqlite.pragma('integrity_check', { simple: true })).toBe('ok')
})
