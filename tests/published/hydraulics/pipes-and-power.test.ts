import { describe, expect, test } from 'vitest'
import {
  atSpeed,
  darcyHead,
  dayLengthH,
  declinationRad,
  extraterrestrialMjPerM2,
  hazenWilliamsHeadM,
  warmingK,
  waterDensityKgPerM3,
  waterPowerW,
  waterViscosityPaS,
  wireToWater,
} from '@/lib/domain/pump'
import { must } from './readings'

const GPM = 0.003785411784 / 60
const INCH_M = 0.0254
const per100 = (insideIn: number, gpm: number) =>
  hazenWilliamsHeadM({ lengthM: 100, insideM: insideIn * INCH_M }, gpm * GPM, 150)

describe('pipe friction', () => {
  // Illinois Administrative Code, title 77, part 906, Appendix A, Exhibit I: Schedule 40 plastic, C = 150, ft per 100 ft.
  test.each([
    [
      '1 in',
      1.049,
      0.06,
      [
        [3, 0.6],
        [4, 1.01],
        [5, 1.52],
        [6, 2.14],
        [7, 2.89],
        [8, 3.63],
        [9, 4.57],
        [10, 5.5],
      ],
    ],
    [
      '1-1/4 in',
      1.38,
      0.07,
      [
        [4, 0.25],
        [5, 0.39],
        [6, 0.55],
        [7, 0.76],
        [8, 0.97],
        [9, 1.21],
        [10, 1.46],
        [12, 2.09],
        [15, 3.06],
        [20, 5.23],
      ],
    ],
    [
      '1-1/2 in',
      1.61,
      0.06,
      [
        [3, 0.07],
        [4, 0.12],
        [5, 0.18],
        [6, 0.25],
        [8, 0.46],
        [10, 0.7],
        [12, 1.01],
        [15, 1.45],
        [20, 2.46],
      ],
    ],
  ] as const)('by Hazen–Williams is the printed table for %s', (_, insideIn, tolerance, rows) => {
    for (const [gpm, printed] of rows)
      expect(Math.abs(per100(insideIn, gpm) - printed)).toBeLessThan(tolerance)
  })

  // Derived (smooth pipe, 60 °F): Hazen–Williams with C 150 is hopeful at house flows.
  test.each([
    [1.049, 1.76],
    [1.38, 0.48],
  ])('by Darcy at 5 gpm in %s in is %s ft per 100 ft, 16 to 20 %% more', (insideIn, expected) => {
    const temperatureC = ((60 - 32) * 5) / 9
    const viscosity = waterViscosityPaS(temperatureC) / waterDensityKgPerM3(temperatureC)
    const loss = darcyHead({ lengthM: 100, insideM: insideIn * INCH_M }, 5 * GPM, 0, viscosity)
    expect(Math.abs(loss.headM - expected)).toBeLessThan(0.02)
    expect(loss.headM / per100(insideIn, 5)).toBeGreaterThan(1.12)
  })

  // Çengel & Cimbala, Fluid Mechanics, Example 8-3, p. 360 (the book rounds the velocity to 3.06 m/s).
  test('is the printed 0.0172, 96.5 kPa, 9.85 m and 579 W for 6 L/s in 50 mm', () => {
    const loss = darcyHead({ lengthM: 60, insideM: 0.05 }, 0.006, 2e-6, 0.001138 / 999)
    expect(loss.regime).toBe('turbulent')
    expect(Math.abs(loss.factor - 0.0172)).toBeLessThan(0.0001)
    expect(Math.abs(loss.headM - 9.85)).toBeLessThan(0.05)
    expect(Math.abs((loss.headM * 999 * 9.80665) / 1000 - 96.5)).toBeLessThan(0.5)
    expect(Math.abs(waterPowerW(0.006, loss.headM, 999) - 579)).toBeLessThan(3)
  })

  // Çengel & Cimbala, Example 8-2, p. 350.
  test('is the printed 4.46 m of laminar flow in 3 mm', () => {
    const insideM = 0.003
    const flow = 0.9 * ((Math.PI * insideM ** 2) / 4)
    const loss = darcyHead({ lengthM: 9, insideM }, flow, 0, 0.001519 / 1000)
    expect(loss.regime).toBe('laminar')
    expect(Math.abs(loss.headM - 4.46)).toBeLessThan(0.005)
  })
})

// The books take 9.81 m/s² for gravity; 9.80665 gives 0.034 % less, so the tolerance is 0.05 %.
describe('power in textbooks', () => {
  test.each([
    ['Sarkar, Fluid Mechanics and Hydraulic Machines, Example 10.6, p. 216', 0.04, 30, 0.75, 11_772, 15_696],
    ['Sarkar, Example 10.7, p. 216', 0.03, 28, 0.72, 8240.4, 11_445],
    ['a waste-water question bank, 14.715 kW', 0.075, 12, 0.6, 8829, 14_715],
  ])('%s', (_, flow, head, efficiency, water, shaft) => {
    expect(Math.abs(waterPowerW(flow, head) / water - 1)).toBeLessThan(5e-4)
    expect(Math.abs(waterPowerW(flow, head) / efficiency / shaft - 1)).toBeLessThan(5e-4)
  })

  // Derived: 500 gpm at 120 ft and 72 % are 21.04 hp by the rounded constant 3960.
  test('500 gpm at 120 ft and 72 % take 21.04 hp within the rounding of 3960', () => {
    const hp = waterPowerW(500 * GPM, 120 * 0.3048) / 0.72 / 745.7
    expect(Math.abs(hp / 21.04 - 1)).toBeLessThan(0.002)
  })

  // Çengel & Cimbala, Example 5-12, p. 221: pump 74.1 %, warming 0.017 °C; wire to water 66.7 % derived.
  test('50 L/s raised 200 kPa with 15 kW is 66.7 % from wire to water', () => {
    const head = 200_000 / (1000 * 9.80665)
    const { share } = must(wireToWater(0.05, head, 15_000), 'efficiency')
    expect(Math.abs(share - 0.6667)).toBeLessThan(0.0005)
    expect(Math.abs(share / 0.9 - 0.741)).toBeLessThan(0.0005)
    expect(Math.abs(warmingK(0.9 * 15_000, share / 0.9, 0.05) - 0.017)).toBeLessThan(0.0005)
  })

  // Sarkar, Example 10.4, p. 214: 1450 to 1650 rpm, 12 m, 6 kW give 15.54 m, 8.841 kW.
  test('the affinity laws give the printed head and power at 1650 rpm', () => {
    const faster = atSpeed({ flowM3PerS: 0.01, headM: 12, powerW: 6000 }, 1650 / 1450)
    expect(faster.headM).toBeCloseTo(15.54, 2)
    expect(faster.powerW / 1000).toBeCloseTo(8.841, 3)
  })

  // Derived from Fox, Example 10.7, p. 522: 1170 to 1750 rpm, 300 gpm, 21.9 ft (the book prints a plot).
  test('the affinity laws take 300 gpm and 21.9 ft at 1170 rpm to 448.7 gpm and 49.0 ft at 1750', () => {
    const faster = atSpeed({ flowM3PerS: 300 * GPM, headM: 21.9 * 0.3048, powerW: 1 }, 1750 / 1170)
    expect(faster.flowM3PerS / GPM).toBeCloseTo(448.7, 1)
    expect(faster.headM / 0.3048).toBeCloseTo(49, 1)
  })
})

describe('the sun', () => {
  // FAO Irrigation and Drainage Paper 56, ch. 3, Example 9: 20° S on 3 September. 11.66559 as printed for it by the
  // daylight_fao56 page of NCAR's NCL.
  test('shines 11.7 h on 3 September at 20° S', () => {
    expect(dayLengthH(-20, 246)).toBeCloseTo(11.66559, 3)
  })

  // FAO 56, Example 8 (from memory): declination 0.120 rad, 32.2 MJ/m² a day.
  test('stands at 0.120 rad and sends 32.2 MJ/m² above the air that day (from memory)', () => {
    expect(declinationRad(246)).toBeCloseTo(0.12, 3)
    expect(Math.abs(extraterrestrialMjPerM2(-20, 246) - 32.2)).toBeLessThan(0.05)
  })

  // Klein 1977, as in Duffie & Beckman, Table 1.6.1 (from memory): declination on each month's mean day.
  test.each([
    [17, -20.9],
    [47, -13.0],
    [75, -2.4],
    [105, 9.4],
    [135, 18.8],
    [162, 23.1],
    [198, 21.2],
    [228, 13.5],
    [258, 2.2],
    [288, -9.6],
    [318, -18.9],
    [344, -23.0],
  ])('has on day %s the declination %s° within half a degree (from memory)', (day, degrees) => {
    expect(Math.abs((declinationRad(day) * 180) / Math.PI - degrees)).toBeLessThan(0.5)
  })
})
