import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  kendallTest,
  mannKendall,
  mannKendallWithMemory,
  type SeasonalValue,
  seasonalKendall,
  seasonalSlope,
  senSlope,
} from '@/lib/domain/stats'
import { seasonCovariance } from '@/lib/domain/stats/season-covariance'
import { noise } from './series'

const cell = fc.record({
  season: fc.integer({ min: 1, max: 4 }),
  year: fc.integer({ min: 1990, max: 2003 }),
  value: fc.integer({ min: -9, max: 9 }),
})
const seasons = fc.uniqueArray(cell, {
  minLength: 20,
  maxLength: 50,
  selector: (v) => `${v.season} ${v.year}`,
})

function tested(values: readonly SeasonalValue[]) {
  const answer = seasonalKendall(values)
  if (answer.kind !== 'test') throw new Error('the generator made too few values')
  return answer
}

describe('seasonalKendall', () => {
  test('is the plain test where there is one season', () => {
    const values = noise(2, 15).map((value, i) => ({ season: 'all', year: i, value }))
    const plain = mannKendall(values.map(({ year, value }) => ({ time: year, value })))
    if (plain.kind !== 'test') throw new Error('too few')
    expect(tested(values)).toMatchObject({ s: plain.s, varS: plain.varS, z: plain.z, tau: plain.tauA })
    const line = senSlope(values.map(({ year, value }) => ({ time: year, value })))
    expect(seasonalSlope(values)).toMatchObject(
      line.kind === 'slope' ? { slope: line.slope, limits: line.limits } : {},
    )
  })

  test('does not see what a season adds to all its values', () => {
    fc.assert(
      fc.property(seasons, (values) => {
        const swung = values.map((v) => ({ ...v, value: v.value + 100 * v.season }))
        expect(tested(swung)).toEqual(tested(values))
        expect(seasonalSlope(swung)).toEqual(seasonalSlope(values))
      }),
    )
  })

  test('turns its sign with the values and with time, and nothing else', () => {
    fc.assert(
      fc.property(seasons, (values) => {
        const up = tested(values)
        for (const turned of [
          values.map((v) => ({ ...v, value: -v.value })),
          values.map((v) => ({ ...v, year: -v.year })),
        ]) {
          const down = tested(turned)
          expect(down.s + up.s).toBe(0)
          expect(down.varS).toBeCloseTo(up.varS, 9)
          if (up.dependent.kind === 'test' && down.dependent.kind === 'test') {
            expect(down.dependent.varS).toBeCloseTo(up.dependent.varS, 9)
          }
        }
      }),
    )
  })

  test('takes several values of one season and year as their median', () => {
    const once = noise(7, 12).map((value, i) => ({ season: 1, year: i, value }))
    const thrice = once.flatMap((v) => [v, { ...v, value: v.value - 5 }, { ...v, value: v.value + 9 }])
    expect(tested(thrice)).toEqual(tested(once))
  })

  test('four copies of one season have twice the standard deviation that independence would give', () => {
    const one = noise(11, 12)
    const values = [1, 2, 3, 4].flatMap((season) => one.map((value, year) => ({ season, year, value })))
    const { varS, dependent } = tested(values)
    if (dependent.kind !== 'test') throw new Error('too few years')
    expect(dependent.varS).toBeCloseTo(4 * varS, 6)
  })

  test('the covariance is what shuffling whole years every way gives', () => {
    const grids = [
      [3, 1, 2, 2, 5],
      [1, 1, 4, 3, 9],
    ]
    const orders = permutations([0, 1, 2, 3, 4])
    const count = (grid: readonly number[], order: readonly number[]) => {
      const answer = kendallTest(
        [0, 1, 2, 3, 4],
        order.map((i) => grid[i] ?? 0),
      )
      return answer.kind === 'test' ? answer.s : 0
    }
    const products = orders.map((order) => count(grids[0] ?? [], order) * count(grids[1] ?? [], order))
    const covariance = products.reduce((sum, v) => sum + v, 0) / orders.length
    const points = grids.map((grid) => grid.map((value, time) => ({ time, value })))
    expect(seasonCovariance(points)).toBeCloseTo(2 * covariance, 9)
  })

  test('says how many years it lacks, in a season and for its covariance', () => {
    const two = [1, 2].map((year) => ({ season: 'dry', year, value: year }))
    expect(seasonalKendall(two)).toEqual({ kind: 'too-few', have: 2, need: 3 })
    expect(seasonalSlope(two)).toEqual({ kind: 'too-few', have: 2, need: 3 })
    expect(seasonalKendall([])).toEqual({ kind: 'too-few', have: 0, need: 3 })
    const nine = noise(1, 9).map((value, year) => ({ season: 'dry', year, value }))
    expect(tested(nine).dependent).toEqual({ kind: 'too-few', have: 9, need: 10 })
    expect(tested(nine).heterogeneity).toEqual({ kind: 'too-few', have: 1, need: 2 })
  })

  test('refuses what is not finite', () => {
    expect(() => seasonalKendall([{ season: 1, year: Number.NaN, value: 1 }])).toThrow(RangeError)
    expect(() => seasonalSlope([{ season: 1, year: 1, value: 1 }], 0.95, -1)).toThrow(RangeError)
  })

  test('wider limits follow from the variance that allows for memory', () => {
    const values = [1, 2, 3].flatMap((season) =>
      noise(season, 20).map((value, year) => ({ season, year, value: value + 0.1 * year })),
    )
    const narrow = seasonalSlope(values, 0.9)
    const wide = seasonalSlope(values, 0.9, 4 * tested(values).varS)
    if (narrow.kind !== 'slope' || wide.kind !== 'slope') throw new Error('too few')
    if (narrow.limits.kind !== 'limits' || wide.limits.kind !== 'limits') throw new Error('no limits')
    expect(wide.limits.lower).toBeLessThan(narrow.limits.lower)
    expect(wide.limits.upper).toBeGreaterThan(narrow.limits.upper)
    expect(wide.slope).toBe(narrow.slope)
  })
})

describe('mannKendallWithMemory', () => {
  /** Share of 200 trendless series with memory 0.5 that each test calls a trend at 5 %. */
  function falseAlarms() {
    const shares = { plain: 0, memory: 0 }
    for (let seed = 1; seed <= 200; seed++) {
      let last = 0
      const points = noise(seed, 60).map((e, time) => {
        last = 0.5 * last + e
        return { time, value: last }
      })
      const plain = mannKendall(points)
      const memory = mannKendallWithMemory(points)
      if (plain.kind !== 'test' || memory.kind !== 'test') throw new Error('too few')
      if (plain.p < 0.05) shares.plain += 1 / 200
      if (memory.pNormal < 0.05) shares.memory += 1 / 200
    }
    return shares
  }

  test('cries wolf far less than the plain test where values remember each other', () => {
    const { plain, memory } = falseAlarms()
    expect(plain).toBeGreaterThan(0.15)
    expect(memory).toBeLessThan(0.6 * plain)
  })

  test('needs ten values, and a lag to look at', () => {
    const nine = noise(1, 9).map((value, time) => ({ time, value }))
    expect(mannKendallWithMemory(nine)).toEqual({ kind: 'too-few', have: 9, need: 10 })
    expect(() => mannKendallWithMemory(nine, { lagMax: 0 })).toThrow(RangeError)
  })

  test('adds nothing on a constant series', () => {
    const flat = noise(1, 12).map((_, time) => ({ time, value: 4 }))
    expect(mannKendallWithMemory(flat)).toMatchObject({ s: 0, varS: 0, pNormal: 1, lags: [] })
  })
})

function permutations(values: readonly number[]): number[][] {
  if (values.length <= 1) return [[...values]]
  return values.flatMap((first, i) =>
    permutations([...values.slice(0, i), ...values.slice(i + 1)]).map((rest) => [first, ...rest]),
  )
}
