import { beforeEach, expect, test } from 'vitest'
import type { Fact } from '@/lib/domain/logbook/kinds'
import type { Db } from '@/lib/records/db'
import { newId } from '@/lib/records/ids'
import { openAcrossFleet, openCount, openMatterOf } from '@/lib/records/matters'
import { ownWell } from '@/lib/records/own-well'
import { rebuild } from '@/lib/records/rebuild'
import { record } from '@/lib/records/record'
import { sellWell } from '@/lib/records/sale'
import { person, wellDue } from '../remind/outfit'
import { freshDb } from '../setup/fresh-db'
import { installer, owner, technician } from '../setup/viewers'

const TODAY = '2026-11-20'
const AT = '2026-11-20T12:00:00.000Z'
let db: Db
let alder: Awaited<ReturnType<typeof wellDue>>
let birch: Awaited<ReturnType<typeof wellDue>>
beforeEach(async () => {
  db = await freshDb()
  alder = await wellDue(db, 'Alder', 'Finch', '2027-05-01')
  birch = await wellDue(db, 'Birch', 'Okonjo', '2027-05-01')
})

const line = (wellId: string, payload: Fact, on: string) => ({
  id: newId(),
  wellId,
  visitId: newId(),
  occurredOn: on,
  occurredTime: null,
  byName: 'x',
  supersedes: null,
  withdraws: null,
  payload,
})
const ask = (urgent: boolean): Fact => ({ kind: 'visit-request', about: 'flow', urgent, phone: '555 0111' })
async function asked(of: typeof alder, urgent: boolean, on: string): Promise<string> {
  const sent = line(of.wellId, ask(urgent), on)
  const outcome = await record(db, owner(of.ownerId), [sent], AT, TODAY)
  if (outcome.kind !== 'stored') throw new Error(outcome.kind)
  return sent.id
}

test('the office sees what is open, urgent first and then the oldest, page by page; nobody else has the list', async () => {
  const ids = [
    await asked(alder, false, '2026-11-03'),
    await asked(birch, true, '2026-11-10'),
    await asked(alder, true, '2026-11-12'),
    await asked(birch, false, '2026-11-01'),
  ]
  const inOrder = [ids[1], ids[2], ids[3], ids[0]]
  for (const viewer of [installer, technician]) {
    const seen: string[] = []
    let after: string | null = null
    do {
      const page = openAcrossFleet(db, viewer, 'visit', after, 1)
      seen.push(...page.rows.map(({ matter }) => matter.id))
      after = page.next
    } while (after !== null)
    expect(seen).toEqual(inOrder)
    expect(openCount(db, viewer, 'visit')).toBe(4)
  }
  expect(openAcrossFleet(db, owner(alder.ownerId), 'visit', null, 9).rows).toEqual([])
  expect(openCount(db, owner(alder.ownerId), 'visit')).toBe(0)
  expect(openMatterOf(db, owner(birch.ownerId), alder.wellId, ids[0] ?? '')).toBeNull()
  expect(openMatterOf(db, owner(alder.ownerId), alder.wellId, ids[0] ?? '')?.id).toBe(ids[0])
  // A cursor that somebody made up starts at the beginning.
  expect(openAcrossFleet(db, installer, 'visit', '9~x', 9).rows).toHaveLength(4)
})

test('what an answer settles is gone at once, and a rebuild says the same as what was kept step by step', async () => {
  const [first, second] = [await asked(alder, false, '2026-11-03'), await asked(alder, true, '2026-11-04')]
  const done = line(alder.wellId, { kind: 'visit-answer', of: first, state: 'done' }, TODAY)
  expect((await record(db, technician, [done], AT, TODAY)).kind).toBe('stored')
  const stored = () => db.sqlite.prepare('SELECT * FROM "Matter" ORDER BY "id"').all()
  const before = stored()
  expect(before).toMatchObject([{ id: second, later: 0, kind: 'visit' }])
  await rebuild(db, 'all')
  expect(stored()).toEqual(before)
  await db.prisma.well.update({ where: { id: alder.wellId }, data: { retiredOn: '2026-11-19' } })
  expect(openAcrossFleet(db, installer, 'visit', null, 9).rows).toEqual([])
})

test('the office reads who asked, and that they hold the well no more once it is sold', async () => {
  const userId = await person(db, 'owner', alder.ownerId)
  const by = { ...owner(alder.ownerId), userId }
  const outcome = await record(db, by, [line(alder.wellId, ask(false), '2026-11-03')], AT, TODAY)
  expect(outcome.kind).toBe('stored')
  const row = () => openAcrossFleet(db, installer, 'visit', null, 9).rows[0]
  expect(row()).toMatchObject({
    personName: `Person ${userId.slice(-4)}`,
    ofThisHousehold: true,
    ownerName: 'Finch',
  })
  const sale = { ownerName: 'Newcomer', ownerPhone: null, ownerEmail: null, wellName: null, on: TODAY }
  expect(await sellWell(db, installer, alder.wellId, { ...sale, mayRead: false }, AT)).toBe('done')
  expect(row()).toMatchObject({ ofThisHousehold: false, ownerName: 'Newcomer' })
})

test('what a household asked does not follow the well to the next one', async () => {
  await asked(alder, true, '2026-11-03')
  expect(ownWell(db, owner(alder.ownerId), alder.wellId)?.matters).toHaveLength(1)
  const sale = {
    ownerName: 'Newcomer',
    ownerPhone: null,
    ownerEmail: null,
    wellName: null,
    on: TODAY,
    mayRead: false,
  }
  expect(await sellWell(db, installer, alder.wellId, sale, '2026-11-20T18:00:00.000Z')).toBe('done')
  const { ownerId } = db.sqlite.prepare('SELECT "ownerId" FROM "Well" WHERE "id" = ?').get(alder.wellId) as {
    ownerId: string
  }
  const seen = ownWell(db, owner(ownerId), alder.wellId)
  expect(seen?.matters).toEqual([])
  expect(JSON.stringify(seen?.visits)).not.toContain('555 0111')
  expect(ownWell(db, owner(alder.ownerId), alder.wellId)).toBeNull()
})
