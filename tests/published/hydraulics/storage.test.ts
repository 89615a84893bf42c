import { describe, expect, test } from 'vitest'
import { circleAreaM2, effectiveArea } from '@/lib/domain/yield/tests'
import { must } from './readings'

const INCH_M = 0.0254
const FOOT_M = 0.3048
const GALLON_M3 = 0.003785411784
const gallonsPerFoot = (areaM2: number) => (areaM2 * FOOT_M) / GALLON_M3

describe('water held by a casing', () => {
  // MIL-HDBK-1164, Table 1, p. 27. Left out: 60 in (prints 148.88, a misprint of 146.88) and the metric column,
  // which prints the circumference in decimetres.
  test.each([
    [4, 0.65],
    [6, 1.47],
    [8, 2.61],
    [10, 4.08],
    [12, 5.88],
    [14, 8.0],
    [15, 9.18],
    [16, 10.44],
    [18, 13.22],
    [20, 16.32],
    [22, 19.75],
    [24, 23.5],
    [27, 29.74],
    [30, 36.72],
    [36, 52.88],
    [42, 71.97],
    [48, 94.0],
  ])('of %s in is the printed %s gal/ft', (inches, printed) => {
    expect(Math.abs(gallonsPerFoot(circleAreaM2(inches * INCH_M)) - printed)).toBeLessThan(0.01)
  })

  test('does not follow the two misprints of that table', () => {
    expect(Math.abs(gallonsPerFoot(circleAreaM2(60 * INCH_M)) - 148.88)).toBeGreaterThan(1)
    expect(circleAreaM2(0.1) * 1000).toBeCloseTo(7.854, 3)
  })

  // homesteady.com, "How Much Water is in a Drilled Well?": 6.5 gal in 10 ft of 4 in.
  test('of 4 in and 10 ft is the printed 6.5 gal', () => {
    expect(Math.abs(10 * gallonsPerFoot(circleAreaM2(4 * INCH_M)) - 6.5)).toBeLessThan(0.05)
  })

  // Exact geometry.
  test.each([
    [2, 2.027],
    [24, 291.86],
    [36, 656.69],
    [48, 1167.45],
  ])('of %s in is %s L/m', (inches, litres) => {
    expect(Math.abs(circleAreaM2(inches * INCH_M) * 1000 - litres)).toBeLessThan(0.01)
  })
})

// Extension slides on hand-dug wells (studylib.net 5418796): 318.53 ft³ for 3 ft by 45 ft mistypes π; 318.09 is right.
test('a hand-dug well of 3 ft by 45 ft holds 318.09 ft³, not the misprinted 318.53', () => {
  const ft3 = (circleAreaM2(3 * FOOT_M) * 45 * FOOT_M) / FOOT_M ** 3
  expect(ft3).toBeCloseTo(318.09, 2)
  expect(Math.abs(ft3 - 318.53)).toBeGreaterThan(0.4)
})

// Bouwer & Rice 1976: the equivalent casing radius; numbers derived here, 36-in casing in 60 in of gravel, porosity 0.30.
test('gravel pores add half again to a 36-in casing: 10.838 ft², 81.08 gal/ft', () => {
  const area = must(
    effectiveArea({
      casingBoreM: 36 * INCH_M,
      casingOutsideM: 36 * INCH_M,
      pit: { shape: 'round', diameterM: 60 * INCH_M },
      gravelPorosity: 0.3,
    }),
    'area',
  )
  expect(Math.abs(area.areaM2 / FOOT_M ** 2 - 10.838)).toBeLessThan(0.002)
  expect(Math.abs(gallonsPerFoot(area.areaM2) - 81.08)).toBeLessThan(0.02)
  expect(Math.sqrt(area.areaM2 / Math.PI) / INCH_M).toBeCloseTo(22.29, 2)
})

test.each([9.5, 10])(
  'common practice, no published source: a new well is pumped for a couple of hours until clear, and two hours at %s gal/min draw the water of a new well and its gravel three to eight times',
  (gpm) => {
    const { areaM2 } = must(
      effectiveArea({
        casingBoreM: 8 * INCH_M,
        casingOutsideM: 8.625 * INCH_M,
        pit: { shape: 'round', diameterM: 4 * FOOT_M },
        gravelPorosity: 0.35,
      }),
      'area',
    )
    const heldGal = gallonsPerFoot(areaM2) * 8
    expect((120 * gpm) / heldGal).toBeGreaterThan(3)
    expect((120 * gpm) / heldGal).toBeLessThan(8)
  },
)
