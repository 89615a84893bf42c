import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  akritasTheilSen,
  type CensoredPoint,
  censoredKendall,
  kaplanMeier,
  kaplanMeierQuantile,
  mannKendall,
  median,
  regressionOnOrder,
  seasonalAkritasTheilSen,
  seasonalCensoredKendall,
  senSlope,
} from '@/lib/domain/stats'
import { noise } from './series'

const point = fc.record({
  time: fc.integer({ min: 0, max: 20 }),
  value: fc.integer({ min: 1, max: 12 }),
  nonDetect: fc.boolean(),
})
const points = fc
  .array(point, { minLength: 8, maxLength: 30 })
  .filter((list) => list.some((p) => !p.nonDetect) && new Set(list.map((p) => p.time)).size >= 3)

const all = (values: readonly number[]): CensoredPoint[] =>
  values.map((value, time) => ({ time, value, nonDetect: false }))

describe('censoredKendall and akritasTheilSen', () => {
  test('are Mann-Kendall and Sen where everything was detected', () => {
    const values = noise(4, 25).map((e, i) => Math.round(10 * e + i))
    const plain = mannKendall(all(values))
    const line = senSlope(all(values))
    const t = censoredKendall(all(values))
    const ats = akritasTheilSen(all(values))
    if (plain.kind !== 'test' || line.kind !== 'slope') throw new Error('too few')
    expect(t).toMatchObject({ s: plain.s, varS: plain.varS, z: plain.z, tau: plain.tauA, nonDetects: 0 })
    if (ats.kind !== 'slope') throw new Error('no slope')
    expect(ats.slope).toBeCloseTo(line.slope, 9)
    const rest = values.map((value, time) => value - ats.slope * time)
    expect(ats.intercept).toMatchObject({ kind: 'value', value: expect.closeTo(median(rest), 9) })
  })

  test('leave no certain trend when the slope is taken out', () => {
    fc.assert(
      fc.property(points, (list) => {
        const ats = akritasTheilSen(list)
        if (ats.kind !== 'slope') return
        const left = (slope: number) => {
          const rest = censoredKendall(list.map((p) => ({ ...p, value: p.value - slope * p.time })))
          return rest.kind === 'test' ? rest.s : Number.NaN
        }
        const hair = 1e-7
        expect(left(ats.slope - hair)).toBeGreaterThanOrEqual(0)
        expect(left(ats.slope + hair)).toBeLessThanOrEqual(0)
      }),
      { numRuns: 300 },
    )
  })

  test('turning time round turns the sign of both', () => {
    fc.assert(
      fc.property(points, (list) => {
        const back = list.map((p) => ({ ...p, time: -p.time }))
        const up = censoredKendall(list)
        const down = censoredKendall(back)
        if (up.kind !== 'test' || down.kind !== 'test') throw new Error('the generator made too few')
        expect(up.s + down.s).toBe(0)
        const there = akritasTheilSen(list)
        const again = akritasTheilSen(back)
        expect(again.kind).toBe(there.kind)
        if (there.kind === 'slope' && again.kind === 'slope') {
          expect(again.slope).toBeCloseTo(-there.slope, 9)
        }
      }),
    )
  })

  test('a limit that fell over the years makes no trend of its own', () => {
    const limits: CensoredPoint[] = [10, 10, 5, 5, 2, 2, 1, 1].map((value, time) => ({
      time,
      value,
      nonDetect: true,
    }))
    const oneDetected = [...limits, { time: 9, value: 0.5, nonDetect: false }]
    expect(censoredKendall(oneDetected)).toMatchObject({ s: 0, pNormal: 1 })
    expect(akritasTheilSen(oneDetected).kind).toBe('open')
  })

  test('all below their limits is told as such, and too few times as too few', () => {
    const none = noise(1, 5).map((_, time) => ({ time, value: 1, nonDetect: true }))
    expect(censoredKendall(none)).toEqual({ kind: 'all-non-detect', n: 5 })
    expect(akritasTheilSen(none)).toEqual({ kind: 'all-non-detect', n: 5 })
    expect(censoredKendall(none.slice(0, 2))).toEqual({ kind: 'too-few', have: 2, need: 3 })
    expect(() => censoredKendall([{ time: 0, value: Number.NaN, nonDetect: true }])).toThrow(RangeError)
  })

  test('by season, do not see what a season adds', () => {
    const values = noise(8, 20).map((e, i) => ({
      season: i % 2,
      time: i,
      value: Math.round(5 * e) + i,
      nonDetect: i % 5 === 3,
    }))
    const swung = values.map((v) => ({ ...v, value: v.value + 1000 * v.season }))
    const plain = seasonalCensoredKendall(values)
    const moved = seasonalCensoredKendall(swung)
    expect(moved).toEqual(plain)
    const line = seasonalAkritasTheilSen(values)
    const movedLine = seasonalAkritasTheilSen(swung)
    if (line.kind !== 'slope' || movedLine.kind !== 'slope') throw new Error('no slope')
    expect(movedLine.slope).toBeCloseTo(line.slope, 9)
    expect(movedLine.limits).toEqual(line.limits)
  })
})

describe('kaplanMeier and regressionOnOrder', () => {
  test('without non-detects the mean and median are the plain ones', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 50 }), { minLength: 3, maxLength: 40 }), (values) => {
        const km = kaplanMeier(values.map((value) => ({ value, nonDetect: false })))
        if (km.kind !== 'distribution') throw new Error('the generator made too few')
        const mean = values.reduce((sum, v) => sum + v, 0) / values.length
        expect(km.meanAtSmallestDetected).toBeCloseTo(mean, 9)
        expect(km.shareBelow).toBe(0)
        expect(kaplanMeierQuantile(km, 0.5)).toEqual({
          kind: 'value',
          value: expect.closeTo(median(values), 9),
        })
      }),
    )
  })

  test('the steps and what lies below them make one', () => {
    fc.assert(
      fc.property(points, (list) => {
        const km = kaplanMeier(list)
        if (km.kind !== 'distribution') throw new Error('the generator made too few')
        const total = km.steps.reduce((sum, step) => sum + step.share, km.shareBelow)
        expect(total).toBeCloseTo(1, 9)
        expect(km.meanAtLowestLimit).toBeLessThanOrEqual(km.meanAtSmallestDetected + 1e-9)
      }),
    )
  })

  test('a median under the smallest detected value is told as below, never as a number of its own', () => {
    const mostly = [1, 1, 1, 1, 5, 6].map((value, i) => ({ value, nonDetect: i < 4 }))
    const km = kaplanMeier(mostly)
    if (km.kind !== 'distribution') throw new Error('no distribution')
    expect(kaplanMeierQuantile(km, 0.5)).toEqual({ kind: 'below', value: 5 })
    expect(kaplanMeierQuantile(km, 0.9)).toEqual({ kind: 'value', value: 6 })
    expect(() => kaplanMeierQuantile(km, 1)).toThrow(RangeError)
  })

  test('say when nothing, or too little, was detected', () => {
    const none = [1, 1, 2].map((value) => ({ value, nonDetect: true }))
    expect(kaplanMeier(none)).toEqual({ kind: 'all-non-detect', n: 3 })
    expect(kaplanMeier([])).toEqual({ kind: 'too-few', have: 0, need: 3 })
    expect(regressionOnOrder(none)).toEqual({ kind: 'all-non-detect', n: 3 })
    expect(regressionOnOrder([])).toEqual({ kind: 'too-few', have: 0, need: 3 })
    expect(() => regressionOnOrder([{ value: 0, nonDetect: false }])).toThrow(RangeError)
  })

  test('raising the unit scales mean, deviation and median', () => {
    const values = noise(5, 20).map((e, i) => ({ value: Math.exp(e), nonDetect: i % 4 === 0 }))
    const mg = regressionOnOrder(values)
    const ug = regressionOnOrder(values.map((v) => ({ ...v, value: 1000 * v.value })))
    if (mg.kind !== 'summary' || ug.kind !== 'summary') throw new Error('no summary')
    expect(ug.mean / mg.mean).toBeCloseTo(1000, 6)
    expect(ug.sd / mg.sd).toBeCloseTo(1000, 6)
    expect(ug.median / mg.median).toBeCloseTo(1000, 6)
  })
})
