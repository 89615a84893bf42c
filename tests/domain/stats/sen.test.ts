import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { median, type Point, seededStream, senSlope } from '@/lib/domain/stats'
import { seriesOf } from '@/lib/domain/stats/slope-count'
import { slopesAtRanks } from '@/lib/domain/stats/slope-select'
import { naiveSlopes, noise } from './series'

const whole = fc.integer({ min: -300, max: 300 })
const points = fc.array(fc.record({ time: fc.integer({ min: 0, max: 30 }), value: whole }), {
  minLength: 3,
  maxLength: 30,
})
const enough = points.filter((list) => new Set(list.map((p) => p.time)).size >= 3)

function line(list: readonly Point[], level?: number) {
  const answer = senSlope(list, level)
  if (answer.kind !== 'slope') throw new Error('the generator made too few points')
  return answer
}

function seriesFrom(time: number[], value: number[]) {
  const order = time.map((_, i) => i).sort((a, b) => (time[a] ?? 0) - (time[b] ?? 0))
  return seriesOf(
    Float64Array.from(order, (i) => time[i] ?? 0),
    Float64Array.from(order, (i) => value[i] ?? 0),
  )
}

/** Every rank of interest, by selection without holding the slopes, against sorting them all. */
function compareWithSorting(time: number[], value: number[]) {
  const sorted = naiveSlopes(time, value)
  const n = sorted.length
  const ranks = [1, 2, n >> 5, n >> 2, (n + 1) >> 1, (n >> 1) + 1, n - (n >> 3), n - 1, n].filter(
    (r) => r >= 1,
  )
  const picked = slopesAtRanks(seriesFrom(time, value), ranks, 0)
  expect(picked.map((slope) => slope + 0)).toEqual(ranks.map((rank) => (sorted[rank - 1] ?? 0) + 0))
}

describe('senSlope', () => {
  test('is the median of all slopes between different times', () => {
    fc.assert(
      fc.property(enough, (list) => {
        const slopes = naiveSlopes(
          list.map((p) => p.time),
          list.map((p) => p.value),
        )
        expect(line(list).slope).toBeCloseTo(median(slopes), 12)
        expect(line(list).slopes).toBe(slopes.length)
      }),
    )
  })

  test('does not change with the order of the readings or the height of the measuring point', () => {
    fc.assert(
      fc.property(enough, whole, (list, shift) => {
        const moved = list.map((p) => ({ ...p, value: p.value + shift })).reverse()
        expect(line(moved).slope).toBe(line(list).slope)
        expect(line(moved).limits).toEqual(line(list).limits)
      }),
    )
  })

  test('scales with the unit of the values and turns with their sign', () => {
    fc.assert(
      fc.property(enough, (list) => {
        const before = line(list)
        const after = line(list.map((p) => ({ ...p, value: -4 * p.value })))
        expect(after.slope).toBeCloseTo(-4 * before.slope, 9)
        if (before.limits.kind === 'limits' && after.limits.kind === 'limits') {
          expect(after.limits.lower).toBeCloseTo(-4 * before.limits.upper, 9)
          expect(after.limits.upper).toBeCloseTo(-4 * before.limits.lower, 9)
        } else expect(after.limits.kind).toBe(before.limits.kind)
      }),
    )
  })

  test('puts wider limits on a higher level, around the slope', () => {
    fc.assert(
      fc.property(enough, (list) => {
        const narrow = line(list, 0.5)
        const wide = line(list, 0.9)
        if (wide.limits.kind !== 'limits' || narrow.limits.kind !== 'limits') return
        expect(wide.limits.lower).toBeLessThanOrEqual(narrow.limits.lower)
        expect(narrow.limits.lower).toBeLessThanOrEqual(narrow.slope)
        expect(narrow.slope).toBeLessThanOrEqual(narrow.limits.upper)
        expect(narrow.limits.upper).toBeLessThanOrEqual(wide.limits.upper)
      }),
    )
  })

  test('takes the mean of the middle two when the slopes are even in number', () => {
    // By hand, six slopes: 1 1 1 3 4 7.
    const value = [0, 1, 2, 9]
    expect(line(value.map((v, time) => ({ time, value: v }))).slope).toBe(2)
  })

  test('gives no limits where the record is too short for the level', () => {
    const four = [10, 15, 14, 20].map((value, time) => ({ time, value }))
    expect(line(four).limits).toEqual({ kind: 'no-limits', level: 0.95, reason: 'too-short-for-level' })
  })

  test('refuses two points, and values that are not finite', () => {
    expect(
      senSlope([
        { time: 0, value: 3 },
        { time: 1, value: 4 },
      ]),
    ).toEqual({ kind: 'too-few', have: 2, need: 3 })
    expect(() => senSlope([{ time: 0, value: Number.NaN }])).toThrow(RangeError)
    expect(() => senSlope([], 1)).toThrow(RangeError)
  })
})

describe('slopesAtRanks', () => {
  test('picks exactly what sorting all slopes picks, in a smooth series', () => {
    const value = noise(1, 700).map((e, i) => e + 0.003 * i)
    compareWithSorting(
      value.map((_, i) => i),
      value,
    )
  })

  test('picks the same at irregular times, some of them equal, far from the origin', () => {
    const dice = seededStream(5)
    const time = Array.from({ length: 600 }, () => 2_460_000 + Math.floor(dice() * 400) / 8)
    compareWithSorting(
      time,
      noise(6, 600).map((e, i) => 1e6 + e + 0.001 * (time[i] ?? 0)),
    )
  })

  test('picks the same among rounded readings, where thousands of slopes are alike', () => {
    const value = noise(9, 800).map((e) => Math.round(e))
    compareWithSorting(
      value.map((_, i) => i / 12),
      value,
    )
  })

  test('picks the same where most readings are equal', () => {
    const value = noise(3, 600).map((e, i) => (i % 17 === 0 ? e : 2.5))
    compareWithSorting(
      value.map((_, i) => i),
      value,
    )
  })

  test('picks the same on any small series of whole numbers', () => {
    fc.assert(
      fc.property(enough, (list) => {
        compareWithSorting(
          list.map((p) => p.time),
          list.map((p) => p.value),
        )
      }),
      { numRuns: 300 },
    )
  })

  test('refuses a rank that does not exist', () => {
    const series = seriesFrom([0, 1, 2], [0, 1, 2])
    for (const rank of [0, 4, 1.5]) expect(() => slopesAtRanks(series, [rank])).toThrow(RangeError)
  })
})
