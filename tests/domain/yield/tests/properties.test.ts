import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  circleAreaM2,
  effectiveArea,
  fitDrawdown,
  fitRecovery,
  recuperation,
  stepDrawdownM,
  stepEfficiency,
  thinCorrected,
} from '@/lib/domain/yield/tests'
import { must } from '../../../published/hydraulics/readings'
import { dice, handTimes, recovery } from './simulate'

const truths = fc.record({
  staticM: fc.double({ min: 0.5, max: 8, noNaN: true }),
  startM: fc.double({ min: 0.3, max: 4, noNaN: true }),
  timeConstantS: fc.double({ min: 60, max: 20_000, noNaN: true }),
  seed: fc.integer({ min: 1, max: 1_000_000 }),
})
const made = (t: { staticM: number; startM: number; timeConstantS: number; seed: number }, noiseM: number) =>
  recovery(t, handTimes(t.timeConstantS, 2.5, 14), noiseM, dice(t.seed))

test('any exact exponential is found again, whatever its size and pace', () => {
  fc.assert(
    fc.property(truths, (truth) => {
      const fit = must(fitRecovery(made(truth, 0), { staticM: truth.staticM, effectiveAreaM2: 1 }), 'fit')
      expect(fit.timeConstantS.value / truth.timeConstantS).toBeCloseTo(1, 4)
      expect(fit.startDrawdownM / truth.startM).toBeCloseTo(1, 4)
    }),
    { numRuns: 60 },
  )
})

test('moving the measuring point changes neither time constant nor capacity', () => {
  fc.assert(
    fc.property(truths, fc.double({ min: 0, max: 5, noNaN: true }), (truth, shiftM) => {
      const readings = made(truth, 0.005)
      const here = fitRecovery(readings, { staticM: truth.staticM, effectiveAreaM2: 1 })
      const moved = readings.map((r) => ({ ...r, levelM: r.levelM + shiftM }))
      const there = fitRecovery(moved, { staticM: truth.staticM + shiftM, effectiveAreaM2: 1 })
      expect(there.kind).toBe(here.kind)
      if (here.kind !== 'fit' || there.kind !== 'fit') return
      expect(there.timeConstantS.value / here.timeConstantS.value).toBeCloseTo(1, 4)
    }),
    { numRuns: 40 },
  )
})

test('a slower clock stretches the time constant in proportion', () => {
  fc.assert(
    fc.property(truths, fc.double({ min: 0.2, max: 5, noNaN: true }), (truth, stretch) => {
      const readings = made(truth, 0.005)
      const well = { staticM: truth.staticM, effectiveAreaM2: 1 }
      const here = fitRecovery(readings, well)
      const slow = fitRecovery(
        readings.map((r) => ({ ...r, elapsedS: r.elapsedS * stretch })),
        well,
      )
      expect(slow.kind).toBe(here.kind)
      if (here.kind !== 'fit' || slow.kind !== 'fit') return
      expect(slow.timeConstantS.value / here.timeConstantS.value / stretch).toBeCloseTo(1, 4)
    }),
    { numRuns: 40 },
  )
})

test('arbitrary levels are answered or refused, never thrown at, and an answer is always ordered', () => {
  const reading = fc.record({
    elapsedS: fc.integer({ min: 0, max: 7200 }),
    levelM: fc.double({ min: 0, max: 20, noNaN: true }),
  })
  const wells = fc.record({
    staticM: fc.option(fc.double({ min: 0, max: 10, noNaN: true })),
    effectiveAreaM2: fc.option(fc.double({ min: 0.01, max: 5, noNaN: true })),
    wellDepthM: fc.option(fc.double({ min: 1, max: 20, noNaN: true })),
  })
  fc.assert(
    fc.property(fc.array(reading, { maxLength: 25 }), wells, (readings, well) => {
      const sorted = [...readings].sort((a, b) => a.elapsedS - b.elapsedS)
      const answer = fitRecovery(sorted, well)
      if (answer.kind === 'refused') {
        expect(answer.message.length).toBeGreaterThan(20)
        return
      }
      const { value, low, high } = answer.timeConstantS
      expect(low).toBeLessThanOrEqual(value)
      expect(value).toBeLessThanOrEqual(high)
      expect(answer.startDrawdownM).toBeGreaterThan(0)
    }),
    { numRuns: 300 },
  )
})

test('recuperation is the same over any two drawdowns of one exponential', () => {
  const positive = fc.double({ min: 0.01, max: 3, noNaN: true })
  fc.assert(
    fc.property(positive, positive, positive, (start, ratio, hours) => {
      const later = start * Math.exp(-ratio)
      const found = must(recuperation(start, later, hours * 3600), 'fit')
      expect(found.perAreaPerS * hours * 3600).toBeCloseTo(ratio, 6)
      expect(found.perAreaPerS * found.timeConstantS).toBeCloseTo(1, 9)
    }),
  )
})

test('recuperation refuses a level that fell, stood still, or rose past static', () => {
  expect(must(recuperation(2, 2, 60), 'refused').code).toBe('no-recovery')
  expect(must(recuperation(2, 2.5, 60), 'refused').code).toBe('no-recovery')
  expect(must(recuperation(2, 0, 60), 'refused').code).toBe('above-static')
  expect(must(recuperation(2, 1, 0), 'refused').code).toBe('time-not-increasing')
})

test('effective area grows with porosity from the casing alone to the open pit', () => {
  const share = fc.double({ min: 0, max: 1, noNaN: true })
  fc.assert(
    fc.property(share, share, (a, b) => {
      const areaAt = (gravelPorosity: number) =>
        must(
          effectiveArea({
            casingBoreM: 0.2,
            casingOutsideM: 0.22,
            pit: { shape: 'round', diameterM: 1.5 },
            gravelPorosity,
          }),
          'area',
        ).areaM2
      const [low, high] = a < b ? [a, b] : [b, a]
      expect(areaAt(low)).toBeLessThanOrEqual(areaAt(high))
      expect(areaAt(0)).toBeCloseTo(circleAreaM2(0.2), 12)
      expect(areaAt(1)).toBeCloseTo(circleAreaM2(0.2) + circleAreaM2(1.5) - circleAreaM2(0.22), 12)
    }),
  )
})

test('a thinned layer never counts for more than the drawdown, nor for less than half of it', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 0.5, max: 50, noNaN: true }),
      (share, b) => {
        const s = share * b
        const { drawdownM } = must(thinCorrected(s, b), 'corrected')
        expect(drawdownM).toBeLessThanOrEqual(s)
        expect(drawdownM).toBeGreaterThanOrEqual(s / 2 - 1e-12)
      },
    ),
  )
})

test('efficiency is the share of the ground in the drawdown at every rate', () => {
  const coefficient = fc.double({ min: 0.1, max: 1e4, noNaN: true })
  fc.assert(
    fc.property(coefficient, coefficient, fc.double({ min: 1e-5, max: 0.1, noNaN: true }), (b, c, flow) => {
      const fit = { bSPerM2: b, cS2PerM5: c }
      expect((stepEfficiency(fit, flow) * stepDrawdownM(fit, flow)) / (b * flow)).toBeCloseTo(1, 9)
    }),
  )
})

test('a well with storage, pumped into a linear inflow, gives back its specific capacity at any time and rate', () => {
  const values = fc.record({
    capacity: fc.double({ min: 2e-4, max: 5e-3, noNaN: true }),
    area: fc.double({ min: 0.03, max: 1.5, noNaN: true }),
    flow: fc.double({ min: 2e-4, max: 3e-3, noNaN: true }),
  })
  fc.assert(
    fc.property(values, ({ capacity, area, flow }) => {
      // A ds/dt = Q − K s, so s = Q/K (1 − exp(−K t / A)).
      const timeConstantS = area / capacity
      const readings = Array.from({ length: 24 }, (_, i) => {
        const elapsedS = timeConstantS * 0.05 * 1.22 ** i
        return { elapsedS, levelM: 2 + (flow / capacity) * (1 - Math.exp(-elapsedS / timeConstantS)) }
      })
      fc.pre((flow / capacity) * 0.99 > 0.03)
      const well = { staticM: 2, flowM3PerS: flow, effectiveAreaM2: area, saturatedThicknessM: null }
      const fit = must(fitDrawdown(readings, well, 1.5 * timeConstantS), 'fit')
      expect(fit.storageShare).toBeGreaterThan(0.1)
      expect(Math.abs(fit.specificCapacityM2PerS / capacity - 1)).toBeLessThan(0.05)
      const raw = must(fitDrawdown(readings, { ...well, effectiveAreaM2: null }, 1.5 * timeConstantS), 'fit')
      expect(raw.specificCapacityM2PerS).toBeGreaterThan(fit.specificCapacityM2PerS * 1.15)
    }),
    { numRuns: 60 },
  )
})
