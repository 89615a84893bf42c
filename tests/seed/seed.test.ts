import { expect, test } from 'vitest'
import { OUTFIT } from '@/lib/access/viewer'
import type { Db } from '@/lib/records/db'
import { dueCounts } from '@/lib/records/due-list'
import { type WaterGroup, waterCounts, waterPage } from '@/lib/records/water-fleet'
import { wellList } from '@/lib/records/well-list'
import { wellWater } from '@/lib/records/well-water'
import { loadDemo } from '@/seed'
import { freshDb } from '../setup/fresh-db'

const TODAY = '2026-11-20'
const AT = '2026-11-20T12:00:00.000Z'

async function demo(): Promise<Db> {
  const db = await freshDb()
  await loadDemo(db, AT, TODAY)
  return db
}

const told = (db: Db) =>
  db.sqlite
    .prepare(
      `SELECT w."label", e."kind", e."occurredOn", e."occurredTime", e."byName", e."payload" FROM "Entry" e JOIN "Well" w ON w."id" = e."wellId" ORDER BY 1, 3, 2, 6`,
    )
    .all()

test('the invented fleet is the same on every load of one day', async () => {
  const [one, two] = [await demo(), await demo()]
  expect(told(one)).toEqual(told(two))
  expect(told(one).length).toBeGreaterThan(5000)
})

test('it has 64 wells, its stories and what yield makes of them, something due in every week, and nothing from the future', async () => {
  const db = await demo()
  const count = (sql: string) => Number(db.sqlite.prepare(sql).pluck().get())
  expect(count('SELECT COUNT(*) FROM "Well"')).toBe(64)
  expect(count(`SELECT COUNT(*) FROM "Entry" WHERE "occurredOn" > '${TODAY}'`)).toBe(0)
  for (const event of ['rehabilitated', 'flooded', 'not-found', 'meter-replaced']) {
    expect(
      count(`SELECT COUNT(*) FROM "Entry" WHERE "payload" LIKE '%"event":"${event}"%'`),
      event,
    ).toBeGreaterThan(0)
  }
  expect(count(`SELECT COUNT(*) FROM "Entry" WHERE "payload" LIKE '%410.6%'`)).toBe(2)
  expect(count(`SELECT COUNT(*) FROM "Entry" WHERE "kind" IN ('correction', 'withdrawal')`)).toBe(2)
  const story = (name: string) => {
    const [row] = wellList(db, OUTFIT, { search: name }, null, 1).rows
    return row?.yield
  }
  expect(story('iron spring 1')).toEqual({ cause: 'well', flag: true })
  expect(story('pear block south')).toEqual({ cause: 'water-table', flag: false })
  expect(story('lower bench 2')).toEqual({ cause: 'pump', flag: false })
  expect(story('ridge hut')).toEqual({ cause: 'unclear', flag: false })
  expect(story('stone bridge')).toEqual({ cause: 'steady', flag: false })
  const due = dueCounts(db, OUTFIT, TODAY, {})
  expect(due.past).toBeGreaterThan(10)
  expect(due.month).toBeGreaterThan(0)
  expect(wellList(db, OUTFIT, { search: 'high saddle' }, null, 2).rows[0]?.lastVisitOn?.slice(0, 4)).toBe(
    '2024',
  )
})

test('its water shows a flood that was cleared, chains that are open, a late sample, and a well never tested', async () => {
  const db = await demo()
  const labels = (group: WaterGroup) =>
    waterPage(db, OUTFIT, TODAY, group, {}, null, 100).rows.map((row) => row.wellName)
  expect(labels('chain')).toEqual(['Weir House', 'Kestrel House'])
  expect(labels('inconclusive')).toContain('Dairy Road 24')
  expect(labels('never')).toEqual(['Tollefsen Sauna'])
  const camp = waterPage(db, OUTFIT, TODAY, 'meets', {}, null, 100).rows.find(
    (row) => row.wellName === 'Camp Loop B',
  )
  const flood = wellWater(db, OUTFIT, camp?.wellId ?? '')?.water.chains ?? []
  expect(flood.map(({ key, closed }) => [key, closed?.how])).toEqual([['bacteria', 'clear-samples']])
  const counts = waterCounts(db, OUTFIT, TODAY, {})
  expect(Object.values(counts).reduce((sum, n) => sum + n, 0)).toBe(64)
})
