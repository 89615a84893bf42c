import { beforeAll, describe, expect, test } from 'vitest'
import { NotAllowed } from '@/lib/access/rules'
import type { Fact } from '@/lib/domain/logbook/kinds'
import type { SupplyFacts } from '@/lib/domain/logbook/supply-facts'
import { toSi, type UnitId } from '@/lib/domain/quantity'
import { exportStockCsv } from '@/lib/exchange/export-stock'
import type { Db } from '@/lib/records/db'
import { dueItems } from '@/lib/records/due-list'
import { newId } from '@/lib/records/ids'
import { record } from '@/lib/records/record'
import { standingOf } from '@/lib/records/standings'
import { moveStock } from '@/lib/records/stock-moves'
import { bareWell } from '@/lib/records/well-fields'
import { saveSupply, wellSupply } from '@/lib/records/well-supply'
import { createWell, updateWell, visibleWell, wellPage } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { installer, owner, technician } from '../setup/viewers'

const TODAY = '2026-11-20'
const AT = '2026-11-20T12:00:00.000Z'
const typed = (value: number, unit: UnitId) => ({ si: toSi(value, unit), typed: `${value} ${unit}` })

const facts: SupplyFacts = {
  drive: 'mains',
  uses: [{ name: 'garden', daily: typed(6000, 'L/d'), months: [6, 7, 8] }],
  setOn: TODAY,
}
const fields = {
  ...bareWell('S1'),
  ownerName: 'Orla Finch',
  intakeDepthM: 4,
  storageM3: 1,
  latitude: 44,
  longitude: -121,
}

let db: Db
let wellId = ''
beforeAll(async () => {
  db = await freshDb()
  const made = await createWell(db, installer, fields, AT)
  if (made.kind !== 'stored') throw new Error(made.kind)
  wellId = made.id
  const lines: Fact[] = [
    { kind: 'level-reading', level: typed(2, 'm'), state: 'rest' },
    { kind: 'level-reading', level: typed(3, 'm'), state: 'pumping' },
    { kind: 'flow-reading', flow: typed(4, 'L/min'), pumped: typed(60, 'min') },
  ]
  for (const on of ['2026-03-01', '2026-09-01']) {
    const visitId = newId()
    const sent = await record(
      db,
      technician,
      lines.map((payload) => ({
        id: newId(),
        wellId,
        visitId,
        occurredOn: on,
        occurredTime: null,
        byName: null,
        supersedes: null,
        withdraws: null,
        payload,
      })),
      AT,
      TODAY,
    )
    if (sent.kind !== 'stored') throw new Error(sent.kind)
  }
})

const version = () => visibleWell(db, installer, wellId)?.version ?? 0
const dueShort = () =>
  db.sqlite
    .prepare('SELECT "id" FROM "DueItem" WHERE "wellId" = ? AND "dutyKey" = \'supply-runs-short\'')
    .pluck()
    .all(wellId) as string[]

describe('supply facts', () => {
  test('put the first short day on the due list, and take it off again', async () => {
    expect(dueShort()).toEqual([])
    expect((await saveSupply(db, installer, wellId, version(), facts, AT)).kind).toBe('stored')
    const [item] = dueItems(db, technician, dueShort())
    expect(item).toMatchObject({ dutyName: 'Water runs short', rank: 2, basis: 'condition' })
    // 6 m³ a day from June on: 4 L/min gives 5.76 m³, and a tank of 1 m³ does not last the first days.
    expect(item?.dueOn?.slice(0, 7)).toBe('2027-06')
    expect((item?.fromOn ?? '') <= (item?.dueOn ?? '')).toBe(true)
    expect(standingOf(db.sqlite, wellId)?.supply).toMatchObject({ kind: 'year', from: TODAY })
    const ample = { ...facts, uses: [{ name: 'house' as const, daily: typed(100, 'L/d'), months: [1] }] }
    expect((await saveSupply(db, installer, wellId, version(), ample, AT)).kind).toBe('stored')
    expect(dueShort()).toEqual([])
  })

  test('are stored once of two who try at once, with a line of the change record', async () => {
    const opened = version()
    expect((await saveSupply(db, installer, wellId, opened, facts, AT)).kind).toBe('stored')
    expect(await saveSupply(db, installer, wellId, opened, null, AT)).toMatchObject({
      kind: 'changed-since',
      current: { version: opened + 1 },
    })
    const [change] = wellPage(db, installer, wellId)?.changes ?? []
    expect(change?.action).toBe('supply stated')
    expect(JSON.parse(change?.after ?? '')).toMatchObject({
      drivenBy: 'mains',
      uses: 'garden 6000 L/d in 3 months',
    })
  })

  test('stay when the well itself is edited, and go when they are taken away', async () => {
    const edited = await updateWell(db, installer, wellId, version(), { ...fields, name: 'Barn' }, AT)
    expect(edited.kind).toBe('stored')
    expect(wellSupply(db, technician, wellId, TODAY)?.side?.facts).toEqual(facts)
    await saveSupply(db, installer, wellId, version(), null, AT)
    expect(wellSupply(db, technician, wellId, TODAY)).toMatchObject({ side: null, basis: null })
    expect(dueShort()).toEqual([])
  })

  test('are stated by an installer alone, and seen at no foreign well', async () => {
    await expect(saveSupply(db, technician, wellId, version(), facts, AT)).rejects.toThrow(NotAllowed)
    await expect(saveSupply(db, owner('x'), wellId, version(), facts, AT)).rejects.toThrow(NotAllowed)
    expect(wellSupply(db, owner('x'), wellId, TODAY)).toBeNull()
    expect((await saveSupply(db, installer, 'nothing', 1, facts, AT)).kind).toBe('no-such-well')
    await expect(
      saveSupply(db, installer, wellId, version(), { ...facts, tiltDeg: 400 }, AT),
    ).rejects.toThrow()
  })
})

test('the export of the shelf leaves what nobody counted blank, and is for installers', async () => {
  const line = { id: newId(), part: 'lamp' as const, on: TODAY, reason: '=SUM(A1)' }
  await moveStock(db, technician, { ...line, model: '40 W', kind: 'taken', count: 1 }, AT, TODAY)
  const text = (file: 'stock' | 'stock-book') => [...exportStockCsv(db, installer, file)].join('')
  expect(text('stock')).toContain('lamp,40 W,,,,\n')
  expect(text('stock-book')).toContain(`lamp,40 W,${TODAY},taken,1,'=SUM(A1),Joss\n`)
  expect(() => [...exportStockCsv(db, technician, 'stock')]).toThrow(NotAllowed)
})
