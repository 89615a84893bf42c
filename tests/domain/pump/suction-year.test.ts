import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  freezeNote,
  frostDepthM,
  liftByMonth,
  liftOverYear,
  monthlyStatic,
  suctionFriction,
} from '@/lib/domain/pump'
import { must } from '../../published/hydraulics/readings'

const line = {
  pipes: [
    { lengthM: 4, insideM: 0.0266 },
    { lengthM: 6, insideM: 0.0351 },
  ],
  kSum: 4,
  roughnessM: 1.5e-6,
}
const year = {
  altitudeM: 300,
  groundToPumpM: 0.6,
  temperatureC: new Array<number>(12).fill(12),
  line,
  flowM3PerS: 5e-4,
  capacityM2PerS: 5e-4,
  cartridgeDropPa: 20_000,
  requiredM: 2.5,
}
const levels = [2.1, 1.9, 1.6, 1.4, 1.5, 1.9, 2.4, 2.9, 3.6, 3.5, null, 2.4]

describe('lift over the year', () => {
  const found = must(liftOverYear(year, levels), 'year')

  test('is that of the month alone where the water is as warm all year', () => {
    const side = { ...year, temperatureC: 12, drawdownM: 1, frictionM: suctionFriction(line, 5e-4, 12).headM }
    const same = must(liftByMonth(side, levels), 'months')
    expect(found.runsOut).toEqual(same.runsOut)
    expect(found.months.map((m) => m.spareM)).toEqual(same.spareM)
    expect(found.unknown).toEqual([11])
  })

  test('names the months in which it runs out and claims nothing of the unknown one', () => {
    expect(found.runsOut).toEqual([9, 10])
    expect(found.says).toContain('9, 10')
    expect(found.says).toContain('Nothing is known of 1')
    const easy = must(liftOverYear(year, new Array(12).fill(1.5)), 'year')
    expect(easy.says).toContain('holds in every month')
  })

  test('shrinks with warm water, flow and a loaded cartridge', () => {
    const least = (changed: Partial<typeof year>) =>
      Math.min(
        ...must(liftOverYear({ ...year, ...changed }, levels), 'year').months.map((m) => m.deepestStaticM),
      )
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 20, noNaN: true }), (more) => {
        expect(least({ temperatureC: year.temperatureC.map((t) => t + more) })).toBeLessThan(least({}))
        expect(least({ cartridgeDropPa: 20_000 + 1000 * more })).toBeLessThan(least({}))
        expect(least({ flowM3PerS: 5e-4 * (1 + more / 10) })).toBeLessThan(least({}))
      }),
    )
  })

  test('cannot be said without drawdown or any level', () => {
    expect(liftOverYear({ ...year, capacityM2PerS: null }, levels).kind).toBe('cannot-say')
    expect(liftOverYear(year, new Array(12).fill(null)).kind).toBe('cannot-say')
    expect(() => liftOverYear(year, [1])).toThrow(RangeError)
  })
})

test('the level of a month is on the deep side of its readings, unknown where there are none', () => {
  const readings = [1, 1.2, 1.4, 1.6, 2].map((levelM, i) => ({ on: `202${i}-09-10`, levelM }))
  const found = monthlyStatic(readings)
  expect(found[8]).toBeCloseTo(1.68, 9)
  expect(found.filter((level) => level === null)).toHaveLength(11)
})

test('friction is by Darcy with the fittings, and says where Hazen–Williams is far from it', () => {
  const brisk = suctionFriction(line, 5e-4, 12)
  expect(brisk.headM).toBeGreaterThan(brisk.darcyM)
  expect(brisk.apart).toBe(false)
  expect(suctionFriction(line, 2e-5, 12).apart).toBe(true)
  expect(() => suctionFriction({ ...line, pipes: [] }, 5e-4, 12)).toThrow(RangeError)
})

test.each([
  [1.5, 1.2, 'below'],
  [1.25, 1.2, 'close'],
  [1.0, 1.2, 'above'],
  [null, 1.2, 'cannot-say'],
  [1.2, null, 'cannot-say'],
])('an outlet at %s m with frost to %s m is %s', (buried, frost, kind) => {
  expect(freezeNote(buried, frost).kind).toBe(kind)
})

// US Army TM 5-852-6 writes Stefan's equation as X = √(48 k n F / L) in ft, Btu/(ft h °F), °F days, Btu/ft³ (from memory).
test('frost by Stefan is the same in the units of the manual', () => {
  const feet = Math.sqrt((48 * 1.2 * 0.7 * 900) / 1800)
  const metres = frostDepthM(900 / 1.8, 1.2 * 1.730735, 1800 * 37_258.95, 0.7)
  expect(metres / 0.3048).toBeCloseTo(feet, 3)
  expect(() => frostDepthM(-1, 1, 1, 1)).toThrow(RangeError)
})
