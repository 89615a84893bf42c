import { describe, expect, test } from 'vitest'
import {
  airAndVapour,
  atmosphericPressurePa,
  headM,
  largestLiftM,
  npshAvailableM,
  primeStanding,
  valveTest,
  vapourPressurePa,
  waterDensityKgPerM3,
} from '@/lib/domain/pump'

const FOOT_M = 0.3048
const PSI_PA = 6894.757293
const celsius = (fahrenheit: number) => ((fahrenheit - 32) * 5) / 9

describe('the standard atmosphere', () => {
  // Davis, Water and Wastewater Engineering, Table 3-7 (US Standard Atmosphere 1976). Left out: 1500 m, whose head of
  // 8.66 m does not fit its own 84.56 kPa.
  test.each([
    [-1000, 113.9, 11.62],
    [-500, 107.5, 10.97],
    [0, 101.3, 10.33],
    [500, 95.46, 9.74],
    [1000, 89.88, 9.17],
    [2000, 79.5, 8.11],
    [2500, 74.69, 7.62],
    [3000, 70.12, 7.15],
  ])('at %s m has the printed %s kPa and %s m of water', (altitudeM, kPa, head) => {
    const pressure = atmosphericPressurePa(altitudeM)
    expect(Math.abs(pressure / 1000 - kPa)).toBeLessThan(0.05)
    expect(Math.abs(headM(pressure, 1000) - head)).toBeLessThan(0.015)
  })

  // Altitude and barometer table reprinted in pump data books.
  test.each([
    [0, 14.7, 33.9],
    [1000, 14.2, 32.8],
    [2000, 13.7, 31.5],
    [3000, 13.2, 30.4],
    [4000, 12.7, 29.2],
    [5000, 12.2, 28.2],
    [6000, 11.8, 27.2],
    [8000, 10.9, 25.2],
    [10_000, 10.1, 23.4],
  ])('at %s ft has the printed %s psi and %s ft of water', (feet, psi, head) => {
    const pressure = atmosphericPressurePa(feet * FOOT_M)
    expect(Math.abs(pressure / PSI_PA - psi)).toBeLessThan(0.05)
    expect(Math.abs(headM(pressure, 1000) / FOOT_M - head)).toBeLessThan(0.12)
  })

  // ISO 2533 / ICAO Doc 7488, from memory.
  test.each([
    [0, 101.325],
    [1000, 89.875],
    [2000, 79.495],
    [3000, 70.109],
  ])('at %s m has %s kPa (from memory)', (altitudeM, kPa) => {
    expect(Math.abs(atmosphericPressurePa(altitudeM) / 1000 - kPa)).toBeLessThan(0.02)
  })

  test('is not asked beyond its range', () => {
    expect(() => atmosphericPressurePa(12_000)).toThrow(RangeError)
    expect(() => atmosphericPressurePa(Number.NaN)).toThrow(RangeError)
  })
})

describe('vapour pressure', () => {
  // Bachus & Custodio, Know and Understand Centrifugal Pumps, p. 34. Left out: 70 °F, printed 0.6331 psi for 0.3631.
  test.each([
    [32, 0.0885, 0.204],
    [40, 0.1217, 0.281],
    [50, 0.1781, 0.411],
    [60, 0.2563, 0.591],
    [80, 0.5069, 1.172],
    [100, 0.9492, 2.203],
  ])('at %s °F is the printed %s psi, %s ft of water', (fahrenheit, psi, head) => {
    const pressure = vapourPressurePa(celsius(fahrenheit))
    expect(Math.abs(pressure / PSI_PA - psi)).toBeLessThan(0.0015)
    const density = waterDensityKgPerM3(celsius(fahrenheit))
    expect(Math.abs(headM(pressure, density) / FOOT_M - head)).toBeLessThan(0.006)
  })

  // IAPWS-IF97 saturation table, from memory.
  test.each([
    [5, 0.8726],
    [10, 1.2282],
    [15, 1.7058],
    [20, 2.3393],
    [25, 3.1699],
    [30, 4.247],
  ])('at %s °C is %s kPa (from memory)', (temperatureC, kPa) => {
    expect(Math.abs(vapourPressurePa(temperatureC) / 1000 - kPa)).toBeLessThan(0.004)
  })
})

describe('suction head in handbooks', () => {
  // Handbook section "Calculating NPSHA", Example 10.11 (Spellman, from memory): 34 − 20 − 0.6 − 0.4 − 2 ft.
  test('gives the printed 11 ft for a lift of 20 ft', () => {
    const heads = { atmosphericM: 34, vapourM: 0.6, liftM: 20, lossesM: 0.4 + 2 }
    expect(npshAvailableM(heads)).toBeCloseTo(11, 9)
  })

  // Munson, Young & Okiishi, Fundamentals of Fluid Mechanics, Example 12.3, p. 702.
  test('gives the printed largest height of 7.65 ft', () => {
    const perPsi = 144 / 62.22
    const velocity = 0.5 / ((Math.PI * (4 / 12) ** 2) / 4)
    const lossesM = (20 * velocity ** 2) / (2 * 32.2)
    expect(Math.abs(lossesM - 10.2)).toBeLessThan(0.05)
    const heads = { atmosphericM: 14.7 * perPsi, vapourM: 0.5069 * perPsi, lossesM }
    expect(Math.abs(largestLiftM(heads, 15) - 7.65)).toBeLessThan(0.005)
  })

  // Khan, Fluid Mechanics, Example 12.5, p. 457 (calls the maximum a minimum): σH = 0.08 × 60 m.
  test('gives the printed largest lift of 4.02 m by the cavitation factor', () => {
    const heads = { atmosphericM: 98_000 / 9810, vapourM: 1707 / 9810, lossesM: 1 }
    expect(Math.abs(largestLiftM(heads, 0.08 * 60) - 4.02)).toBeLessThan(0.005)
  })

  // Engineering ToolBox, "Pumps - Suction Head vs. Altitude": practical lift. Its 24.13 ft of air at 7,920 ft is a
  // slip for 25.13 and is left out.
  test.each([
    [0, 22],
    [1320, 21],
    [2640, 20],
    [3960, 18],
    [5280, 17],
    [6600, 16],
    [7920, 15],
    [10_560, 14],
  ])(
    'leaves 30 to 45 %% of the air for the pump at the practical lift of %s ft altitude: %s ft',
    (altitude, lift) => {
      const { atmosphericM, vapourM } = airAndVapour(altitude * FOOT_M, 10)
      const spare = npshAvailableM({ atmosphericM, vapourM, liftM: lift * FOOT_M, lossesM: 0 })
      expect(spare / atmosphericM).toBeGreaterThan(0.3)
      expect(spare / atmosphericM).toBeLessThan(0.45)
    },
  )
})

// Common practice, no published source: a static level 5 to 6 ft down leaves ample lift for a surface pump at sea level.
test.each([5, 6])('a static level %s ft down leaves a surface pump at sea level ample lift', (feet) => {
  const heads = { ...airAndVapour(0, 12), liftM: feet * FOOT_M, lossesM: 0.5 }
  expect(npshAvailableM(heads)).toBeGreaterThan(7)
})

describe('a check valve between runs', () => {
  const PSI = PSI_PA
  const over = (hours: number, lostPsi: number) =>
    valveTest({ beforePa: 40 * PSI, afterPa: (40 - lostPsi) * PSI, heldS: hours * 3600 })

  test('common practice, no published source: one that holds keeps prime between runs, and a loss is sought elsewhere', () => {
    expect(over(10, 0.5).kind).toBe('holds')
    const lost = ['2026-05-01', '2026-07-20']
    const held = { on: '2026-08-01', beforePa: 40 * PSI, afterPa: 39.5 * PSI, heldS: 36_000 }
    expect(primeStanding(lost, [], [], [held]).lookAt).toBe('joints')
    expect(primeStanding([], [], [], [held]).lookAt).toBe('nothing')
  })

  test('common practice, no published source: one that lets water back is the first thing to look at', () => {
    expect(over(10, 8).kind).toBe('leaks')
    const leaks = { on: '2026-08-01', beforePa: 40 * PSI, afterPa: 32 * PSI, heldS: 36_000 }
    expect(primeStanding(['2026-07-20'], [], [], [leaks]).lookAt).toBe('valve')
  })
})
