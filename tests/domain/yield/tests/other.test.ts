import { describe, expect, test } from 'vitest'
import {
  availableDrawdown,
  checkDemand,
  edenHazel,
  effectiveArea,
  fillTimeS,
  fitDrawdown,
  fitSteps,
  fitTheis,
  hvorslevConductivity,
  inflowM3PerS,
  jacobLine,
  stepIncrements,
  straightLine,
  sustainableRateM3PerS,
  theisRecovery,
  thinCorrected,
} from '@/lib/domain/yield/tests'
import { must } from '../../../published/hydraulics/readings'

describe('what a well stores', () => {
  const well = { casingBoreM: 0.2, casingOutsideM: 0.22, gravelPorosity: 0.3 }

  test('counts a rectangular pit by its sides and takes the casing out of the gravel by its outside', () => {
    const area = must(
      effectiveArea({ ...well, pit: { shape: 'rectangular', lengthM: 1.5, widthM: 1 } }),
      'area',
    )
    expect(area.casingM2).toBeCloseTo(0.0314159, 6)
    expect(area.gravelM2).toBeCloseTo(0.3 * (1.5 - 0.0380133), 6)
    expect(area.areaM2).toBeCloseTo(area.casingM2 + area.gravelM2, 12)
  })

  test('is the casing alone where there is no gravel, and says when the outside stood in for nothing', () => {
    expect(must(effectiveArea({ ...well, pit: null }), 'area').gravelM2).toBe(0)
    const guessed = must(
      effectiveArea({ ...well, casingOutsideM: null, pit: { shape: 'round', diameterM: 1 } }),
      'area',
    )
    expect(guessed.note).toContain('the bore stood in')
  })

  test('cannot be said with gravel of unknown porosity, or a pit smaller than the casing', () => {
    const pit = { shape: 'round', diameterM: 1 } as const
    expect(must(effectiveArea({ ...well, pit, gravelPorosity: null }), 'cannot-say').reason).toBe(
      'porosity-unknown',
    )
    const small = effectiveArea({ ...well, pit: { shape: 'round', diameterM: 0.1 } })
    expect(must(small, 'cannot-say').reason).toBe('pit-smaller-than-casing')
  })

  test('is a broken assumption with impossible sizes', () => {
    expect(() => effectiveArea({ ...well, casingBoreM: 0, pit: null })).toThrow(RangeError)
    expect(() => effectiveArea({ ...well, casingOutsideM: 0.1, pit: null })).toThrow(RangeError)
    const pit = { shape: 'round', diameterM: 1 } as const
    expect(() => effectiveArea({ ...well, pit, gravelPorosity: 30 })).toThrow(RangeError)
  })
})

describe('what a drawdown test refuses', () => {
  const well = { staticM: 2, flowM3PerS: 0.0006, effectiveAreaM2: 0.3, saturatedThicknessM: null }
  const at = (levels: number[], minutes = levels.map((_, i) => (i + 1) * 10)) =>
    levels.map((levelM, i) => ({ elapsedS: (minutes[i] ?? 0) * 60, levelM }))
  const levels = at([2.5, 2.7, 2.8, 2.85, 2.88, 2.9])

  test.each([
    ['two readings', levels.slice(0, 2), well, 'too-few'],
    ['no rate', levels, { ...well, flowM3PerS: null }, 'rate-unknown'],
    ['a rate of nothing', levels, { ...well, flowM3PerS: 0 }, 'rate-unknown'],
    ['static and pumping levels swapped', at([1.2, 1.1, 1.05, 1.02]), well, 'above-static'],
    ['a level that did not fall', at([2, 2.01, 2.01, 2]), well, 'no-drawdown'],
    ['more water lost than pumped', at([5, 6, 6.5, 7]), { ...well, flowM3PerS: 0.00006 }, 'mass-balance'],
    [
      'a well still emptying itself',
      at([2.5, 3, 3.5, 4, 4.5], [5, 10, 15, 20, 25]),
      { ...well, effectiveAreaM2: 0.345 },
      'mass-balance',
    ],
    ['a drawdown deeper than the layer', levels, { ...well, saturatedThicknessM: 0.5 }, 'below-bottom'],
    ['times out of order', at([2.5, 2.7, 2.8], [10, 30, 20]), well, 'time-not-increasing'],
  ] as const)('%s', (_, readings, given, code) => {
    const refused = must(fitDrawdown(readings, given), 'refused')
    expect(refused.code).toBe(code)
    expect(refused.message.length).toBeGreaterThan(30)
  })

  test('a time outside the test', () => {
    expect(must(fitDrawdown(levels, well, 7200), 'refused').message).toContain('2.0 h')
    expect(must(fitDrawdown(levels, well, 60), 'refused').code).toBe('too-few')
  })

  test('and it states capacity between readings along log time, with the thin layer corrected', () => {
    const fit = must(fitDrawdown(levels, { ...well, saturatedThicknessM: 4 }, 2100), 'fit')
    expect(fit.drawdownM).toBeGreaterThan(0.8)
    expect(fit.drawdownM).toBeLessThan(0.85)
    expect(fit.thinCorrectedM).toBeCloseTo(fit.drawdownM - fit.drawdownM ** 2 / 8, 12)
    expect(fit.specificCapacityM2PerS * (fit.thinCorrectedM ?? 0)).toBeCloseTo(fit.aquiferFlowM3PerS, 12)
  })

  test('and it says what it could not correct', () => {
    const fit = must(fitDrawdown(levels, { ...well, effectiveAreaM2: null }), 'fit')
    expect(fit.storageShare).toBeNull()
    expect(fit.notes.join(' ')).toContain('upper bound')
    expect(fit.notes.join(' ')).toContain('thinning')
  })
})

describe('straight lines and curves of time', () => {
  test('need three points at different times', () => {
    expect(
      straightLine([
        { x: 1, y: 1 },
        { x: 1, y: 2 },
        { x: 2, y: 2 },
      ]),
    ).toEqual({ kind: 'too-few', have: 2, need: 3 })
    expect(jacobLine([{ elapsedS: 60, drawdownM: 1 }], 0.001, { fromS: 0, toS: 100 }).kind).toBe('too-few')
    expect(theisRecovery([], 2, { flowM3PerS: 0.001, forS: 600 }, 0).kind).toBe('too-few')
    expect(must(fitTheis([{ elapsedS: 60, drawdownM: 1 }], 0.001, 10), 'refused').code).toBe('too-few')
  })

  test('refuse a level that does not fall with time', () => {
    const flat = [60, 120, 240, 480].map((elapsedS) => ({ elapsedS, drawdownM: 1 - elapsedS / 1e5 }))
    expect(must(jacobLine(flat, 0.001, { fromS: 0, toS: 1e4 }), 'refused').code).toBe('no-drawdown')
  })

  test("Hvorslev's shape factor is not used for a short screen", () => {
    const well = { casingRadiusM: 0.1, screenRadiusM: 0.5, screenLengthM: 2 }
    expect(hvorslevConductivity(well, 100)).toEqual({ kind: 'too-short', lengthOverRadius: 4, need: 8 })
  })
})

describe('what a step test refuses', () => {
  const step = (flowM3PerS: number, drawdownM: number) => ({ flowM3PerS, drawdownM })

  test.each([
    ['two rates', [step(0.001, 1), step(0.002, 2.2)], 'too-few'],
    ['three steps at two rates', [step(0.001, 1), step(0.002, 2.2), step(0.002, 2.3)], 'too-few'],
    ['less drawdown at a higher rate', [step(0.001, 1), step(0.002, 0.9), step(0.003, 3)], 'no-drawdown'],
    ['a bend that no well loss makes', [step(0.001, 0.1), step(0.002, 0.8), step(0.003, 2.7)], 'poor-fit'],
  ] as const)('%s', (_, steps, code) => {
    expect(must(fitSteps(steps, false), 'refused').code).toBe(code)
  })

  test('and it holds a negative well loss at zero and says why', () => {
    const fit = must(fitSteps([step(0.001, 1), step(0.002, 1.9), step(0.003, 2.7)], false), 'fit')
    expect(fit.cS2PerM5).toBe(0)
    expect(fit.warnings.join(' ')).toContain('cleared itself')
  })

  test('steps without readings cannot be carried on', () => {
    const steps = [1, 2, 3].map((n) => ({ flowM3PerS: n / 1000, endS: n * 3600 }))
    const readings = [600, 1200, 2400, 3600].map((elapsedS) => ({ elapsedS, drawdownM: 1 + elapsedS / 1e4 }))
    expect(must(stepIncrements(readings, steps, 1800), 'refused').message).toContain('Step 2')
    expect(must(edenHazel(readings, steps), 'refused').code).toBe('too-few')
  })
})

describe('what a well can carry', () => {
  test('is reckoned down to the intake less the water kept above it', () => {
    const low = { staticM: 2.5, intakeM: 5, keepAboveIntakeM: 0.5 }
    expect(availableDrawdown(low)).toEqual({ kind: 'available', drawdownM: 2 })
    expect(must(availableDrawdown({ ...low, staticM: 4.75 }), 'none').shortM).toBeCloseTo(0.25, 12)
    expect(must(availableDrawdown({ ...low, staticM: null }), 'cannot-say').reason).toBe('no-static')
    expect(must(availableDrawdown({ ...low, intakeM: null }), 'cannot-say').reason).toBe('no-intake')
  })

  test('is capacity times available drawdown, less where the layer thins', () => {
    expect(sustainableRateM3PerS(3e-4, 2, null)).toBeCloseTo(6e-4, 12)
    expect(sustainableRateM3PerS(3e-4, 2, 4)).toBeCloseTo(4.5e-4, 12)
    expect(() => sustainableRateM3PerS(3e-4, 2, 1)).toThrow(RangeError)
    expect(() => sustainableRateM3PerS(-1, 2, null)).toThrow(RangeError)
  })

  test('is set against demand and tank', () => {
    const short = checkDemand(1e-4, 4, 2, 10)
    expect(short.carries).toBe(false)
    expect(short.dailyYieldM3).toBeCloseTo(3.6, 12)
    expect(short.hoursPerDayNeeded).toBeCloseTo(11.11, 2)
    expect(short.tankLastsDays).toBeCloseTo(5, 9)
    expect(checkDemand(2e-4, 4, 2, 10).tankLastsDays).toBeNull()
    expect(checkDemand(0, 4, 2, 10).hoursPerDayNeeded).toBeNull()
    expect(() => checkDemand(1e-4, 0, 2, 10)).toThrow(RangeError)
    expect(() => checkDemand(1e-4, 4, 2, 25)).toThrow(RangeError)
  })

  test('has no fill time without a rate and no inflow above static', () => {
    expect(() => fillTimeS(1, 0)).toThrow(RangeError)
    expect(() => inflowM3PerS(1e-3, -0.1)).toThrow(RangeError)
    expect(() => thinCorrected(1, 0)).toThrow(RangeError)
    expect(must(thinCorrected(3, 2), 'cannot-say').reason).toBe('deeper-than-aquifer')
  })
})
