import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  airAndVapour,
  atSpeed,
  clearSkyMjPerM2,
  darcyHead,
  dayLengthH,
  extraterrestrialMjPerM2,
  fittingsHeadM,
  hazenWilliamsHeadM,
  liftByMonth,
  npshAvailableM,
  vapourPressurePa,
  waterDensityKgPerM3,
  waterViscosityPaS,
  wireToWater,
} from '@/lib/domain/pump'
import { must } from '../../published/hydraulics/readings'

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true })

describe('lift by month', () => {
  const side = {
    altitudeM: 300,
    temperatureC: 12,
    groundToPumpM: 0.6,
    drawdownM: 1.2,
    frictionM: 0.4,
    cartridgeDropPa: 20_000,
    requiredM: 2.5,
  }
  const levels = [2.1, 1.9, 1.6, 1.4, 1.5, 1.9, 2.4, 2.9, 3.4, 3.2, null, 2.4]

  test('shows the months in which the lift runs out, worst first, and claims nothing of an unknown one', () => {
    const found = must(liftByMonth(side, levels), 'months')
    expect(found.deepestStaticM).toBeCloseTo(3.09, 1)
    expect(found.runsOut).toEqual([9, 10])
    expect(found.unknown).toEqual([11])
    expect(found.spareM[10]).toBeNull()
  })

  test('leaves nothing to spare exactly at the deepest level, where the suction head is what the pump needs', () => {
    const { deepestStaticM } = must(liftByMonth(side, levels), 'months')
    const lossesM = side.frictionM + side.cartridgeDropPa / (waterDensityKgPerM3(12) * 9.80665)
    const liftM = side.groundToPumpM + side.drawdownM + deepestStaticM
    expect(npshAvailableM({ ...airAndVapour(300, 12), liftM, lossesM })).toBeCloseTo(2.5, 9)
  })

  test('cannot be said without a single level', () => {
    expect(liftByMonth(side, new Array(12).fill(null)).kind).toBe('cannot-say')
    expect(() => liftByMonth(side, [1, 2])).toThrow(RangeError)
  })

  test('shrinks with altitude and with warmth', () => {
    const deepest = (altitudeM: number, temperatureC: number) =>
      must(liftByMonth({ ...side, altitudeM, temperatureC }, levels), 'months').deepestStaticM
    fc.assert(
      fc.property(between(0, 3000), between(1, 500), between(2, 35), (altitude, higher, temperature) => {
        expect(deepest(altitude + higher, temperature)).toBeLessThan(deepest(altitude, temperature))
        expect(vapourPressurePa(temperature + 1)).toBeGreaterThan(vapourPressurePa(temperature))
      }),
    )
  })
})

describe('friction', () => {
  const pipe = { lengthM: 30, insideM: 0.0266 }

  test('grows with flow and shrinks with bore by both laws, and Darcy joins up at every Reynolds number', () => {
    fc.assert(
      fc.property(between(1e-6, 1e-3), between(1.01, 2), (flow, more) => {
        const viscosity = waterViscosityPaS(12) / waterDensityKgPerM3(12)
        const darcy = (q: number, insideM = pipe.insideM) =>
          darcyHead({ ...pipe, insideM }, q, 1.5e-6, viscosity).headM
        expect(darcy(flow * more)).toBeGreaterThan(darcy(flow))
        expect(darcy(flow, pipe.insideM * more)).toBeLessThan(darcy(flow))
        const hazen = (q: number) => hazenWilliamsHeadM(pipe, q, 150)
        expect(hazen(flow * more) / hazen(flow)).toBeCloseTo(more ** 1.852, 9)
      }),
    )
  })

  test('is nothing in still water, and the larger law where the flow is unsettled', () => {
    expect(darcyHead(pipe, 0, 0, 1e-6)).toMatchObject({ headM: 0, regime: 'still' })
    const unsettled = darcyHead(pipe, 3000 * 1e-6 * pipe.insideM * (Math.PI / 4), 0, 1e-6)
    expect(unsettled.regime).toBe('unsettled')
    expect(unsettled.factor).toBeGreaterThan(64 / 3000)
    expect(hazenWilliamsHeadM(pipe, 0, 150)).toBe(0)
  })

  test('in fittings is K times the velocity head', () => {
    const flow = Math.PI * 0.05 ** 2
    expect(fittingsHeadM(2, flow, 0.1)).toBeCloseTo(((2 * 1) / (2 * 9.80665)) * 1, 9)
  })

  test('is a broken assumption with impossible sizes', () => {
    expect(() => hazenWilliamsHeadM({ lengthM: 1, insideM: 0 }, 1e-4, 150)).toThrow(RangeError)
    expect(() => hazenWilliamsHeadM(pipe, -1e-4, 150)).toThrow(RangeError)
    expect(() => hazenWilliamsHeadM(pipe, 1e-4, 0)).toThrow(RangeError)
    expect(() => darcyHead(pipe, 1e-4, -1, 1e-6)).toThrow(RangeError)
    expect(() => fittingsHeadM(-1, 1e-4, 0.02)).toThrow(RangeError)
  })
})

describe('wire to water', () => {
  test('efficiency is never above one', () => {
    fc.assert(
      fc.property(between(0, 0.01), between(0, 60), between(0, 2000), (flow, head, watts) => {
        const found = wireToWater(flow, head, watts)
        if (found.kind === 'efficiency') expect(found.share).toBeLessThanOrEqual(1)
        else expect(found.message).toMatch(/measure|check/i)
      }),
    )
    expect(() => atSpeed({ flowM3PerS: 1, headM: 1, powerW: 1 }, 0)).toThrow(RangeError)
  })
})

describe('the sun', () => {
  test('gives the two hemispheres each other’s days, half a year apart in length of day', () => {
    fc.assert(
      fc.property(between(0, 60), fc.integer({ min: 1, max: 365 }), (latitude, day) => {
        expect(dayLengthH(latitude, day) + dayLengthH(-latitude, day)).toBeCloseTo(24, 9)
        expect(clearSkyMjPerM2(latitude, day, 0)).toBeLessThan(extraterrestrialMjPerM2(latitude, day))
      }),
    )
  })

  test('does not set at midsummer beyond the circle, nor rise at midwinter', () => {
    expect(dayLengthH(75, 172)).toBe(24)
    expect(dayLengthH(75, 355)).toBe(0)
    expect(extraterrestrialMjPerM2(75, 355)).toBe(0)
    expect(() => dayLengthH(91, 1)).toThrow(RangeError)
  })
})
