import { describe, expect, test } from 'vitest'
import { addDays } from '@/lib/domain/quantity/day'
import { courseBand } from '@/lib/domain/yield/decline/course'
import type { CapacityPoint } from '@/lib/domain/yield/decline/types'
import { diceFrom } from '../../sim/dice'

const point = (i: number, value: number | null): CapacityPoint => ({
  on: addDays('2020-01-10', i * 91),
  capacityM2PerS: value,
  adjustedM2PerS: value,
  staticM: 3,
  setAside: null,
})

describe('the course of capacity', () => {
  test('is not drawn from fewer than five values, nor from before the baseline', () => {
    const four = [1, 2, 3, 4].map((v, i) => point(i, v))
    expect(courseBand(four, '2020-01-01')).toEqual([])
    const eight = Array.from({ length: 8 }, (_, i) => point(i, 1))
    expect(courseBand(eight, addDays('2020-01-10', 4 * 91))).toEqual([])
  })

  test('of values without noise is the values', () => {
    const band = courseBand(
      Array.from({ length: 12 }, (_, i) => point(i, 0.4 * Math.exp(-0.03 * i))),
      '2020-01-01',
    )
    expect(band).toHaveLength(12)
    for (const [i, { low, high }] of band.entries()) {
      expect(low).toBeCloseTo(0.4 * Math.exp(-0.03 * i), 6)
      expect(high).toBeCloseTo(low, 6)
    }
  })

  test('holds the true course about 8 times in 10, for a loss that begins half way', () => {
    let inside = 0
    let all = 0
    for (let seed = 1; seed <= 200; seed += 1) {
      const roll = diceFrom(seed)
      const truth = (i: number) => 0.4 * Math.exp(-0.02 * Math.max(0, i - 12))
      const points = Array.from({ length: 24 }, (_, i) => point(i, truth(i) * Math.exp(0.05 * roll.normal())))
      courseBand(points, '2020-01-01').forEach(({ low, high }, i) => {
        all += 1
        if (truth(i) >= low && truth(i) <= high) inside += 1
      })
    }
    expect(all).toBe(200 * 24)
    // About right, not exact, as its docstring says.
    expect(inside / all).toBeGreaterThan(0.7)
    expect(inside / all).toBeLessThan(0.92)
  })
})
