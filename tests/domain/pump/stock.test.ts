import fc from 'fast-check'
import { expect, test } from 'vitest'
import { onShelf, partsInPlace, pickList, reorders, type StockLine } from '@/lib/domain/pump'

const key = { part: 'cartridge', model: '10 in, 20 micron' }
const line = (on: string, kind: StockLine['kind'], count: number): StockLine => ({ ...key, on, kind, count })

test('a shelf that nobody counted is unknown, not empty', () => {
  expect(onShelf([], key)).toBeNull()
  expect(onShelf([line('2026-01-02', 'fitted', 2)], key)).toBeNull()
  expect(onShelf([line('2026-01-01', 'received', 6), line('2026-01-02', 'fitted', 2)], key)).toBe(4)
})

test('a count puts the book right; what was fitted before it changes nothing, whenever it was written', () => {
  const lines = [
    line('2026-01-01', 'received', 6),
    line('2026-03-01', 'counted', 3),
    line('2026-03-02', 'fitted', 1),
  ]
  expect(onShelf(lines, key)).toBe(2)
  expect(onShelf([...lines, line('2026-02-01', 'fitted', 2)], key)).toBe(2)
  expect(onShelf([...lines, line('2026-03-01', 'fitted', 1)], key)).toBe(1)
  expect(onShelf([...lines, line('2026-03-02', 'counted', 9)], key)).toBe(9)
})

test('other models and parts leave a shelf alone, and fitting as much as was received empties it', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 1, max: 20 }), { minLength: 1, maxLength: 10 }), (counts) => {
      const received = counts.map((count) => line('2026-01-01', 'received', count))
      const fitted = counts.map((count) => line('2026-01-02', 'fitted', count))
      const others = counts.map((count) => ({ ...line('2026-01-03', 'fitted', count), model: 'other' }))
      expect(onShelf([...received, ...fitted, ...others], key)).toBe(0)
    }),
  )
})

test('is reordered at its level after the round, and said to be short', () => {
  const rules = [{ ...key, reorderAt: 2, upTo: 10 }]
  const lines = [line('2026-01-01', 'counted', 6)]
  const need = (count: number) => reorders(rules, lines, [{ ...key, count }])
  expect(need(3)).toEqual([])
  expect(need(4)).toMatchObject([{ shelf: 6, needed: 4, order: 8 }])
  expect(need(9)).toMatchObject([{ order: 13, why: '3 short for this round' }])
  expect(reorders(rules, [], [])).toMatchObject([{ shelf: null, order: null }])
  expect(() => reorders([{ ...key, reorderAt: 5, upTo: 5 }], [], [])).toThrow(RangeError)
})

test('a round’s list adds up equal parts and names their wells', () => {
  const cartridge = { ...key, count: 1 }
  const rings = { part: 'o-rings', model: null, count: 2 }
  const list = pickList([
    { well: 'Barn', duty: 'change cartridge', parts: [cartridge, rings] },
    { well: 'House', duty: 'change cartridge', parts: [cartridge] },
    { well: 'House', duty: 'rinse housing', parts: [rings] },
  ])
  expect(list).toEqual([
    { ...key, count: 2, wells: ['Barn', 'House'] },
    { part: 'o-rings', model: null, count: 4, wells: ['Barn', 'House'] },
  ])
})

test('the newest part of each kind is in place, its warranty counted in calendar months', () => {
  const pump = { part: 'pump', model: 'P', warrantyMonths: 24 }
  const found = partsInPlace([
    { ...pump, on: '2024-02-29' },
    { ...pump, on: '2020-01-01' },
    { part: 'cap', model: null, on: '2024-01-01', warrantyMonths: null },
  ])
  expect(found).toMatchObject([
    { part: 'pump', on: '2024-02-29', warrantyUntil: '2026-02-28', before: ['2020-01-01'] },
    { part: 'cap', warrantyUntil: null },
  ])
})
