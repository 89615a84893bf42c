import fc from 'fast-check'
import { expect, test } from 'vitest'
import { selectRanks } from '@/lib/domain/stats/select'
import { noise } from './series'

test('gives what sorting gives at every rank, with many ties and without', () => {
  const list = fc.oneof(
    fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 1, maxLength: 400 }),
    fc.array(fc.double({ noNaN: true }), { minLength: 1, maxLength: 400 }),
  )
  fc.assert(
    fc.property(list, fc.array(fc.nat(), { minLength: 1, maxLength: 6 }), (values, picks) => {
      const sorted = Float64Array.from(values).sort()
      const ranks = picks.map((pick) => 1 + (pick % values.length))
      const picked = selectRanks(Float64Array.from(values), ranks)
      picked.forEach((value, i) => {
        expect(value + 0).toBe((sorted[(ranks[i] ?? 0) - 1] ?? Number.NaN) + 0)
      })
    }),
    { numRuns: 400 },
  )
})

test('keeps its answer on lists that are in order, in reverse, or shaped like an organ pipe', () => {
  const n = 5000
  for (const list of [
    noise(1, n).map((_, i) => i),
    noise(1, n).map((_, i) => -i),
    noise(1, n).map((_, i) => Math.min(i, n - i)),
    noise(1, n).map(() => 7),
  ]) {
    const sorted = Float64Array.from(list).sort()
    const ranks = [1, 2, 2500, 2501, 4999, 5000]
    expect(selectRanks(Float64Array.from(list), ranks)).toEqual(ranks.map((rank) => sorted[rank - 1]))
  }
})

test('refuses ranks that do not exist', () => {
  for (const rank of [0, 3, 1.5, Number.NaN]) {
    expect(() => selectRanks(new Float64Array(2), [rank])).toThrow(RangeError)
  }
})
