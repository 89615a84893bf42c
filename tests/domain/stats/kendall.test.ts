import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { exactKendallUpperTail, kendallTest, mannKendall } from '@/lib/domain/stats'
import { kendallCount } from '@/lib/domain/stats/kendall'
import { naiveS } from './series'

const small = fc.integer({ min: -4, max: 4 })
const pairs = fc.array(fc.tuple(small, small), { minLength: 3, maxLength: 40 })
const split = (list: readonly (readonly [number, number])[]) => ({
  x: list.map(([x]) => x),
  y: list.map(([, y]) => y),
})

describe('kendallTest', () => {
  test('counts S as the plain double loop does, ties and all', () => {
    fc.assert(
      fc.property(pairs, (list) => {
        const { x, y } = split(list)
        expect(kendallCount(x, y).s).toBe(naiveS(x, y) + 0)
      }),
      { numRuns: 500 },
    )
  })

  test('gives the variance that shuffling every way gives, with ties in both', () => {
    const x = [1, 1, 2, 3, 3, 3]
    const y = [5, 7, 7, 7, 9, 5]
    const all = permutations(y).map((shuffled) => naiveS(x, shuffled))
    const mean = all.reduce((sum, s) => sum + s, 0) / all.length
    const variance = all.reduce((sum, s) => sum + (s - mean) ** 2, 0) / all.length
    expect(mean).toBeCloseTo(0, 12)
    expect(kendallCount(x, y).varS).toBeCloseTo(variance, 9)
  })

  test('answers the same whatever the order of the pairs', () => {
    fc.assert(
      fc.property(pairs, (list) => {
        const { x, y } = split(list)
        const back = split([...list].reverse())
        expect(kendallTest(back.x, back.y)).toEqual(kendallTest(x, y))
      }),
    )
  })

  test('changes sign, and nothing else, when y is turned upside down', () => {
    fc.assert(
      fc.property(pairs, (list) => {
        const { x, y } = split(list)
        const up = kendallTest(x, y)
        const down = kendallTest(
          x,
          y.map((v) => -v),
        )
        if (up.kind !== 'test' || down.kind !== 'test') throw new Error('the generator made too few')
        expect(down.s + up.s).toBe(0)
        expect(down.p).toBe(up.p)
        expect(down.varS).toBe(up.varS)
      }),
    )
  })

  test('does not care by how much values differ, only in which order', () => {
    fc.assert(
      fc.property(pairs, (list) => {
        const { x, y } = split(list)
        expect(
          kendallTest(
            x,
            y.map((v) => Math.exp(v) + 7),
          ),
        ).toEqual(kendallTest(x, y))
      }),
    )
  })

  test('refuses unequal lists and values that are not finite', () => {
    expect(() => kendallTest([1, 2, 3], [1, 2])).toThrow(RangeError)
    expect(() => kendallTest([1, 2, Number.NaN], [1, 2, 3])).toThrow(RangeError)
    expect(() => mannKendall([{ time: Number.POSITIVE_INFINITY, value: 1 }])).toThrow(RangeError)
  })

  test('leaves tau-b out where a constant makes it undefined', () => {
    expect(kendallTest([1, 2, 3, 4], [7, 7, 7, 7])).toMatchObject({ s: 0, varS: 0, z: 0, p: 1 })
    expect(kendallTest([1, 2, 3, 4], [7, 7, 7, 7])).not.toHaveProperty('tauB')
  })

  test('counts days, not readings: three readings on two days are too few', () => {
    const points = [
      { time: 0, value: 3 },
      { time: 0, value: 5 },
      { time: 1, value: 4 },
    ]
    expect(mannKendall(points)).toEqual({ kind: 'too-few', have: 2, need: 3 })
  })

  test('turns from the exact to the normal p past ten values, or at the first tie', () => {
    const rise = (n: number) => Array.from({ length: n }, (_, i) => ({ time: i, value: i * i }))
    expect(mannKendall(rise(10))).toMatchObject({ pMethod: 'exact' })
    expect(mannKendall(rise(11))).toMatchObject({ pMethod: 'normal-continuity' })
    expect(mannKendall([...rise(9), { time: 9, value: 64 }])).toMatchObject({ pMethod: 'normal-continuity' })
  })
})

describe('exactKendallUpperTail', () => {
  test('is what counting every order of six values gives', () => {
    const all = permutations([1, 2, 3, 4, 5, 6]).map((order) => naiveS([1, 2, 3, 4, 5, 6], order))
    for (let s = -15; s <= 16; s++) {
      const share = all.filter((other) => other >= s).length / all.length
      expect(exactKendallUpperTail(6, s)).toBeCloseTo(share, 12)
    }
  })

  test('is 1 / n! at the largest S', () => {
    expect(exactKendallUpperTail(8, 28)).toBeCloseTo(1 / 40320, 15)
  })

  test('refuses an n that has no distribution', () => {
    for (const n of [0, 2.5, 171, Number.NaN]) expect(() => exactKendallUpperTail(n, 0)).toThrow(RangeError)
  })
})

function permutations(list: readonly number[]): number[][] {
  if (list.length <= 1) return [[...list]]
  return list.flatMap((first, i) =>
    permutations([...list.slice(0, i), ...list.slice(i + 1)]).map((rest) => [first, ...rest]),
  )
}
