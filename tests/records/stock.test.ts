import { beforeAll, describe, expect, test } from 'vitest'
import { NotAllowed } from '@/lib/access/rules'
import type { Fact } from '@/lib/domain/logbook/kinds'
import { addDays } from '@/lib/domain/quantity/day'
import type { Db } from '@/lib/records/db'
import { addDuty } from '@/lib/records/duties'
import { newId } from '@/lib/records/ids'
import { savePart } from '@/lib/records/parts'
import { rebuild } from '@/lib/records/rebuild'
import { record } from '@/lib/records/record'
import { neededUntil, pickListOf } from '@/lib/records/stock'
import { shelf, shelfItem, stockBook, stockItemId } from '@/lib/records/stock-items'
import { moveStock, type StockMove, setStockRule } from '@/lib/records/stock-moves'
import { bareWell } from '@/lib/records/well-fields'
import { createWell } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { installer, owner, technician } from '../setup/viewers'

const TODAY = '2026-11-20'
const AT = '2026-11-20T12:00:00.000Z'
const SIZE = '10 in, 20 micron'

let db: Db
beforeAll(async () => {
  db = await freshDb()
})

async function well(label: string, lastChanged = '2026-05-01'): Promise<string> {
  const made = await createWell(db, installer, bareWell(label), AT)
  if (made.kind !== 'stored') throw new Error(made.kind)
  await addDuty(
    db,
    installer,
    made.id,
    {
      key: 'change-sediment-cartridge',
      name: 'Change sediment cartridge',
      consequence: 'supply',
      everyMonths: 6,
      everyRunS: null,
      everyM3: null,
      condition: null,
      conditionLimitSi: null,
      lastDoneOn: lastChanged,
      typed: {},
    },
    AT,
  )
  return made.id
}

const draft = (wellId: string, occurredOn: string, payload: unknown, more: object = {}) => ({
  id: newId(),
  wellId,
  visitId: newId(),
  occurredOn,
  occurredTime: null,
  byName: null,
  supersedes: null,
  withdraws: null,
  payload,
  ...more,
})
const fitting = (count: number, model: string | undefined = SIZE): Fact => ({
  kind: 'service-done',
  duties: ['change-sediment-cartridge'],
  names: [],
  parts: [{ part: 'cartridge', count, ...(model ? { model } : {}) }],
})
async function visit(wellId: string, on: string, payload: unknown, more: object = {}): Promise<string> {
  const sent = draft(wellId, on, payload, more)
  const outcome = await record(db, technician, [sent], AT, TODAY)
  if (outcome.kind !== 'stored') throw new Error(JSON.stringify(outcome))
  return sent.id
}
const move = (more: Partial<StockMove>): StockMove => ({
  id: newId(),
  part: 'cartridge',
  model: SIZE,
  on: TODAY,
  kind: 'counted',
  count: 0,
  reason: null,
  ...more,
})
const onShelf = (model: string | null = SIZE) =>
  shelfItem(db, technician, stockItemId('cartridge', model))?.shelf

describe('the shelf', () => {
  test('loses what a visit fitted, and gets it back when the visit is corrected or withdrawn', async () => {
    const wellId = await well('Barn')
    await moveStock(db, technician, move({ count: 10, on: '2026-11-01' }), AT, TODAY)
    const entry = await visit(wellId, '2026-11-05', fitting(2, ' 10 IN,  20 micron'))
    expect(onShelf()).toBe(8)
    const correction = await visit(
      wellId,
      '2026-11-05',
      {
        kind: 'correction',
        reason: 'one only',
        occurredOn: '2026-11-05',
        occurredTime: null,
        replacement: fitting(1),
      },
      { supersedes: entry },
    )
    expect(onShelf()).toBe(9)
    await visit(wellId, TODAY, { kind: 'withdrawal', reason: 'was right' }, { withdraws: correction })
    expect(onShelf()).toBe(8)
    await visit(wellId, TODAY, { kind: 'withdrawal', reason: 'another well' }, { withdraws: entry })
    expect(onShelf()).toBe(10)
  })

  test('is unknown until counted, and a count of nothing is an empty one', async () => {
    const model = '20 in, 5 micron'
    const wellId = await well('Pool')
    await visit(wellId, '2026-11-02', fitting(1, model))
    expect(shelfItem(db, technician, stockItemId('cartridge', model))).toBeNull()
    await setStockRule(db, technician, stockItemId('cartridge', model), 1, { reorderAt: 1, upTo: 3 }, AT)
    await moveStock(db, technician, move({ model, count: 0 }), AT, TODAY)
    expect(onShelf(model)).toBe(0)
  })

  test('takes what was received and taken away, and a later count puts everything before it right', async () => {
    const model = '10 in, 1 micron'
    const lines = [
      move({ model, kind: 'received', count: 12, on: '2026-10-01' }),
      move({ model, kind: 'taken', count: 2, on: '2026-10-05', reason: 'torn wrapping' }),
    ]
    for (const line of lines) await moveStock(db, technician, line, AT, TODAY)
    expect(onShelf(model)).toBe(10)
    await moveStock(db, technician, move({ model, count: 7, on: '2026-10-10' }), AT, TODAY)
    await moveStock(db, technician, move({ model, kind: 'taken', count: 5, on: '2026-10-02' }), AT, TODAY)
    expect(onShelf(model)).toBe(7)
    const item = shelfItem(db, technician, stockItemId('cartridge', model))
    if (!item) throw new Error('no item')
    const book = stockBook(db, technician, item, 50)
    expect(book.map(({ kind, counts }) => [kind, counts])).toEqual([
      ['counted', true],
      ['taken', false],
      ['taken', false],
      ['received', false],
    ])
  })

  test('counts a line sent twice once, and refuses what no form sends', async () => {
    const model = '4 in pleated'
    const line = move({ model, kind: 'received', count: 3 })
    expect((await moveStock(db, technician, line, AT, TODAY)).kind).toBe('stored')
    expect((await moveStock(db, technician, line, AT, TODAY)).kind).toBe('already')
    expect(onShelf(model)).toBe(3)
    await expect(moveStock(db, technician, move({ count: -1 }), AT, TODAY)).rejects.toThrow()
    await expect(moveStock(db, technician, move({ kind: 'received', count: 0 }), AT, TODAY)).rejects.toThrow()
    await expect(moveStock(db, technician, move({ on: addDays(TODAY, 1) }), AT, TODAY)).rejects.toThrow(
      RangeError,
    )
  })

  test('keeps every line of its book', () => {
    expect(() => db.sqlite.prepare('UPDATE "StockEntry" SET "count" = 1').run()).toThrow('never changed')
    expect(() => db.sqlite.prepare('DELETE FROM "StockEntry"').run()).toThrow('never deleted')
  })

  test('is no business of an owner', async () => {
    expect(() => shelf(db, owner('anybody'))).toThrow(NotAllowed)
    await expect(moveStock(db, owner('anybody'), move({}), AT, TODAY)).rejects.toThrow(NotAllowed)
    await expect(setStockRule(db, owner('x'), 'any', 1, null, AT)).rejects.toThrow(NotAllowed)
    expect(() => pickListOf(db, owner('x'), [])).toThrow(NotAllowed)
  })

  test('is the same after everything was reckoned anew', async () => {
    const rows = () => db.sqlite.prepare('SELECT * FROM "FittedItem" ORDER BY "entryId","line"').all()
    const before = rows()
    expect(before.length).toBeGreaterThan(0)
    await rebuild(db, 'all')
    expect(rows()).toEqual(before)
  })
})

describe('a reorder rule', () => {
  test('is set once of two who try at once', async () => {
    const itemId = stockItemId('cartridge', SIZE)
    const set = (version: number) =>
      setStockRule(db, technician, itemId, version, { reorderAt: 2, upTo: 10 }, AT)
    expect((await set(1)).kind).toBe('stored')
    expect(await set(1)).toMatchObject({ kind: 'changed-since', current: { reorderAt: 2, upTo: 10 } })
    expect((await setStockRule(db, technician, 'nothing', 1, null, AT)).kind).toBe('no-such-item')
    await expect(setStockRule(db, technician, itemId, 2, { reorderAt: 3, upTo: 3 }, AT)).rejects.toThrow(
      RangeError,
    )
  })
})

describe('what a round takes', () => {
  test('is the size fitted last at each well, held against the shelf', async () => {
    const [a, b, c] = [await well('R1'), await well('R2'), await well('R3')]
    const size = '30 in, 50 micron'
    await visit(a, '2026-10-01', fitting(1, size))
    await visit(b, '2026-10-01', fitting(1, 'old size'))
    const listed = {
      kind: 'cartridge',
      model: null,
      size,
      fittedOn: '2026-10-20',
      warrantyUntil: null,
      removedOn: null,
      notes: null,
      beside: false,
    }
    await savePart(db, installer, b, null, listed, AT)
    await moveStock(db, technician, move({ model: size, count: 1 }), AT, TODAY)
    const keys = ['change-sediment-cartridge', 'check-motor-brushes', 'replace-motor-brushes']
    const stops = [
      { wellId: a, label: 'R1', dutyKeys: keys },
      { wellId: b, label: 'R2', dutyKeys: keys.slice(0, 2) },
      { wellId: c, label: 'R3', dutyKeys: ['recovery-test', 'check-motor-brushes'] },
    ]
    const list = pickListOf(db, technician, stops)
    const said = list.map(({ part, model, count, use, onShelf: there, short, wells }) => [
      `${count} ${part} ${model} ${use}`,
      there,
      short,
      wells.map(({ label }) => label).join(' '),
    ])
    expect(said).toEqual([
      ['1 brushes null used', null, null, 'R1'],
      ['2 cartridge 30 in, 50 micron used', 1, 1, 'R1 R2'],
      ['2 o-rings null used', null, null, 'R1 R2'],
      ['1 brushes null in case', null, null, 'R2 R3'],
    ])
  })

  test('up to a day holds what is past due and due by then, and nothing later', async () => {
    const [soon, late] = [await well('N1', '2026-05-25'), await well('N2', '2026-09-01')]
    const size = 'only here'
    await visit(soon, '2025-11-01', { ...fitting(1, size), duties: ['look-around'] })
    await visit(late, '2025-11-01', { ...fitting(1, size), duties: ['look-around'] })
    const line = neededUntil(db, technician, addDays(TODAY, 30)).find(({ model }) => model === size)
    expect(line).toMatchObject({ count: 1, use: 'used', wells: [{ label: 'N1' }] })
  })
})
