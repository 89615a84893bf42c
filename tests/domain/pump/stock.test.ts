import fc from 'fast-check'
import { expect, test } from 'vitest'
import { modelKey, onShelf, type StockLine, shelfStanding } from '@/lib/domain/pump'

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

test('is reordered at its level after what is due, said to be short, and never guessed', () => {
  const rule = { reorderAt: 2, upTo: 10 }
  expect(shelfStanding(6, 3, rule)).toMatchObject({ kind: 'enough', left: 3, order: 0 })
  expect(shelfStanding(6, 4, rule)).toMatchObject({ kind: 'order', left: 2, order: 8 })
  expect(shelfStanding(6, 9, rule)).toMatchObject({ kind: 'short', left: -3, order: 13 })
  expect(shelfStanding(6, 9, null)).toMatchObject({ kind: 'short', order: 3 })
  expect(shelfStanding(6, 2, null)).toMatchObject({ kind: 'no level', left: 4, order: 0 })
  expect(shelfStanding(null, 0, rule)).toMatchObject({ kind: 'count first', left: null, order: null })
  expect(shelfStanding(-2, 0, rule)).toMatchObject({ kind: 'count first', order: null })
  expect(() => shelfStanding(1, 0, { reorderAt: 5, upTo: 5 })).toThrow(RangeError)
})

test('what left otherwise is off the shelf too, and models are the same but for case and spacing', () => {
  const taken = { ...key, model: ' 10 IN,  20 micron', on: '2026-01-03', kind: 'taken' as const, count: 2 }
  expect(onShelf([line('2026-01-01', 'received', 6), taken], key)).toBe(4)
  expect(modelKey(null)).toBe('')
})
