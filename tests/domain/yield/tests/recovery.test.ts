import { describe, expect, test } from 'vitest'
import { fitRecovery, type LevelReading, type RefusalCode, recuperation } from '@/lib/domain/yield/tests'
import { must } from '../../../published/hydraulics/readings'
import { dice, handTimes, normal, recovery } from './simulate'

const TRUTH = { staticM: 1.7, startM: 2.2, timeConstantS: 900 }
const AREA_M2 = 0.35
const times = handTimes(900, 2.5, 14)
const clean = recovery(TRUTH, times, 0, dice(1))
const known = { staticM: 1.7, effectiveAreaM2: AREA_M2 }
const unknown = { staticM: null, effectiveAreaM2: AREA_M2 }

describe('a recovery without noise', () => {
  test('gives back the time constant, the start and the capacity', () => {
    const fit = must(fitRecovery(clean, known), 'fit')
    expect(fit.timeConstantS.value).toBeCloseTo(900, 3)
    expect(fit.startDrawdownM).toBeCloseTo(2.2, 6)
    expect(fit.specificCapacityM2PerS?.value).toBeCloseTo(AREA_M2 / 900, 9)
    expect(fit.halfS).toBeCloseTo(623.83, 1)
    expect(fit.quality.word).toBe('good')
    expect(fit.setAside).toEqual([])
  })

  test('gives back the static level, too, where nobody read it, and says that it is an estimate', () => {
    const fit = must(fitRecovery(clean, unknown), 'fit')
    expect(fit.staticFrom).toBe('estimated')
    expect(fit.staticM).toBeCloseTo(1.7, 4)
    expect(fit.timeConstantS.value).toBeCloseTo(900, 1)
    expect(fit.notes.join(' ')).toContain('Static was not read')
    expect(fit.drift.kind).toBe('cannot-say')
  })

  test('tells the time constant but no capacity where the sizes of the well are unknown', () => {
    const fit = must(fitRecovery(clean, { staticM: 1.7, effectiveAreaM2: null }), 'fit')
    expect(fit.timeConstantS.value).toBeCloseTo(900, 3)
    expect(fit.specificCapacityM2PerS).toBeNull()
    expect(fit.notes.join(' ')).toContain('no inflow can be worked out')
  })

  test('agrees with the two-point recuperation formula on any two of its readings', () => {
    const h = (i: number) => (clean[i]?.levelM ?? 0) - 1.7
    const seconds = (clean[9]?.elapsedS ?? 0) - (clean[3]?.elapsedS ?? 0)
    expect(must(recuperation(h(3), h(9), seconds), 'fit').timeConstantS).toBeCloseTo(900, 6)
  })
})

describe('a recovery with bad readings', () => {
  test('sets one mistyped level aside and hardly moves', () => {
    const slipped = clean.map((r, i) => (i === 5 ? { ...r, levelM: r.levelM + 1 } : r))
    const fit = must(fitRecovery(slipped, known), 'fit')
    expect(fit.timeConstantS.value).toBeCloseTo(900, 0)
    expect(fit.setAside.map((s) => s.elapsedS)).toEqual([times[5]])
  })

  test('knows a single level typed in feet for what it is', () => {
    const feet = clean.map((r, i) => (i === 6 ? { ...r, levelM: r.levelM / 0.3048 } : r))
    const fit = must(fitRecovery(feet, known), 'fit')
    expect(fit.setAside).toEqual([{ elapsedS: times[6], levelM: feet[6]?.levelM, hint: 'looks like feet' }])
  })

  test('bears a bad first reading, the one that a log-line trusts most', () => {
    const late = clean.map((r, i) => (i === 0 ? { ...r, levelM: 2.4 } : r))
    expect(must(fitRecovery(late, known), 'fit').timeConstantS.value).toBeCloseTo(900, 0)
  })
})

describe('what a recovery refuses, and what it tells the technician', () => {
  const at = (seconds: number[], levels: number[]): LevelReading[] =>
    seconds.map((elapsedS, i) => ({ elapsedS, levelM: levels[i] ?? Number.NaN }))
  const minutes = (levels: number[]) =>
    at(
      levels.map((_, i) => i * 60),
      levels,
    )
  const linear = minutes([4, 3.8, 3.6, 3.4, 3.2, 3, 2.8, 2.6, 2.4, 2.2, 2.0, 1.85, 1.78, 1.72])
  const gravel = Array.from({ length: 16 }, (_, i) => ({
    elapsedS: i * 60,
    levelM: 1.7 + 1.4 * Math.exp(-i / 0.9) + 0.6 * Math.exp(-i / 9),
  }))
  const cases: [
    string,
    LevelReading[],
    { staticM: number | null; wellDepthM?: number },
    RefusalCode,
    string,
  ][] = [
    ['three readings', clean.slice(0, 3), { staticM: 1.7 }, 'too-few', '3 readings of the 4'],
    ['five without static', clean.slice(0, 5), { staticM: null }, 'too-few', 'read before pumping'],
    [
      'a clock that runs back',
      at([0, 60, 50, 120], [4, 3, 2.5, 2.2]),
      { staticM: 1.7 },
      'time-not-increasing',
      'Reading 3',
    ],
    [
      'a time before pump off',
      at([-60, 0, 60, 120], [4, 3, 2.5, 2.2]),
      { staticM: 1.7 },
      'time-not-increasing',
      'pump off',
    ],
    [
      'a level that only falls',
      minutes([2, 2.4, 2.7, 2.9, 3.1, 3.2]),
      { staticM: 1.7 },
      'pump-running',
      'pump stops',
    ],
    [
      'a level that falls at first',
      minutes([3, 3.4, 3.7, 3.9, 3.3, 2.8, 2.5, 2.3, 2.1]),
      { staticM: 1.7 },
      'pump-running',
      'until 2.0 min',
    ],
    [
      'a level that hardly moves',
      minutes([1.72, 1.71, 1.72, 1.71, 1.7, 1.71]),
      { staticM: 1.7 },
      'no-recovery',
      'Pump longer',
    ],
    [
      'water drawn half way',
      minutes([4, 3.3, 2.8, 2.5, 2.3, 2.6, 2.9, 3.1]),
      { staticM: 1.7 },
      'rose-then-fell',
      'up to 3.0 min',
    ],
    [
      'water above static',
      minutes([4, 3.2, 2.6, 2.3, 2.1, 2, 1.95, 1.93]),
      { staticM: 2.2 },
      'above-static',
      'Read it again',
    ],
    [
      'levels in feet, static in metres',
      clean.map((r) => ({ ...r, levelM: r.levelM / 0.3048 })),
      { staticM: 1.7 },
      'wrong-unit',
      'like feet',
    ],
    ['static in feet, levels in metres', clean, { staticM: 1.75 / 0.3048 }, 'wrong-unit', 'like feet'],
    [
      'levels deeper than the well',
      clean.map((r) => ({ ...r, levelM: r.levelM / 0.3048 })),
      { staticM: null, wellDepthM: 5 },
      'wrong-unit',
      'like feet',
    ],
    [
      'a well entered too shallow',
      clean,
      { staticM: null, wellDepthM: 1 },
      'below-bottom',
      "check the well's depth",
    ],
    [
      'feet from the middle on',
      clean.map((r, i) => (i > 7 ? { ...r, levelM: r.levelM / 0.3048 } : r)),
      { staticM: 1.7 },
      'wrong-unit',
      'one unit',
    ],
    ['water cascading in', linear, { staticM: 1.7 }, 'two-slopes', 'cascading'],
    ['gravel draining behind the casing', gravel, { staticM: 1.7 }, 'two-slopes', 'gravel'],
    [
      'a third of the way back, static unknown',
      recovery(TRUTH, handTimes(900, 0.5, 12), 0.005, dice(3)),
      { staticM: null },
      'too-uncertain',
      'read static',
    ],
    [
      'a hundredth of the way back in noise',
      recovery({ ...TRUTH, timeConstantS: 30_000 }, handTimes(900, 1, 12), 0.03, dice(4)),
      { staticM: 1.7 },
      'too-uncertain',
      'read on',
    ],
  ]

  test.each(cases)('%s', (_, readings, well, code, words) => {
    const refused = must(fitRecovery(readings, { effectiveAreaM2: AREA_M2, ...well }), 'refused')
    expect(refused.code).toBe(code)
    expect(refused.message).toContain(words)
  })

  test('a reading that is no number is a broken assumption, not a refusal', () => {
    expect(() => fitRecovery(minutes([4, Number.NaN, 3, 2]), known)).toThrow(RangeError)
  })
})

describe('simulated recoveries with known truth', () => {
  type Outcome = { covered: number; fits: number; errors: number[]; widths: number[] }

  function run(tests: number, staticKnown: boolean, outlierShare: number, seed: number): Outcome {
    const roll = dice(seed)
    const outcome: Outcome = { covered: 0, fits: 0, errors: [], widths: [] }
    for (let i = 0; i < tests; i++) {
      const truth = { staticM: 1 + 3 * roll(), startM: 0.8 + 2 * roll(), timeConstantS: 200 + 3000 * roll() }
      const elapsed = handTimes(truth.timeConstantS, 1.2 + 2 * roll(), 10 + Math.floor(12 * roll()))
      const readings = recovery(truth, elapsed, 0.015, roll).map((r) =>
        roll() < outlierShare ? { ...r, levelM: r.levelM + (roll() < 0.5 ? -1 : 1) * (0.2 + roll()) } : r,
      )
      const fit = fitRecovery(readings, { staticM: staticKnown ? truth.staticM : null, effectiveAreaM2: 1 })
      if (fit.kind !== 'fit') continue
      outcome.fits += 1
      const { value, low, high } = fit.timeConstantS
      if (low <= truth.timeConstantS && truth.timeConstantS <= high) outcome.covered += 1
      outcome.errors.push(Math.abs(value / truth.timeConstantS - 1))
      outcome.widths.push(high / low)
    }
    return outcome
  }
  const middle = (values: number[]) =>
    [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN

  test.each([
    ['static known, clean', true, 0, 0.98, 0.01],
    ['static known, one reading in twenty wild', true, 0.05, 0.85, 0.012],
    ['static unknown, clean', false, 0, 0.9, 0.03],
  ] as const)(
    '%s: the interval of eighty in a hundred holds the truth in 75 to 88 of them',
    (_, staticKnown, wild, accepted, error) => {
      const outcome = run(400, staticKnown, wild, 20260327)
      expect(outcome.fits / 400).toBeGreaterThan(accepted)
      expect(outcome.covered / outcome.fits).toBeGreaterThan(0.75)
      expect(outcome.covered / outcome.fits).toBeLessThan(0.88)
      expect(middle(outcome.errors)).toBeLessThan(error)
    },
  )

  test('noise of two centimetres about static is no reason to refuse', () => {
    const roll = dice(77)
    const refused = Array.from({ length: 300 }, () => {
      const readings = recovery(
        { staticM: 2, startM: 0.7, timeConstantS: 300 },
        handTimes(300, 5, 20),
        0.02,
        roll,
      )
      return fitRecovery(readings, { staticM: 2 + 0.01 * normal(roll), effectiveAreaM2: 1 })
    }).filter((answer) => answer.kind === 'refused')
    expect(refused.length).toBeLessThanOrEqual(3)
  })
})

// Sizes and levels are made up to give the rate.
test.each([
  [10, 120],
  [9.5, 126.3],
])(
  'common practice, no published source: a gravel-packed 8-inch well that recovers at %s gal/min carries 1,200 gal in %s minutes at best',
  async (gallonsPerMin, minutes) => {
    const { effectiveArea, fillTimeS, inflowM3PerS } = await import('@/lib/domain/yield/tests')
    const gallon = 0.003785411784
    const area = must(
      effectiveArea({
        casingBoreM: 8 * 0.0254,
        casingOutsideM: 8.625 * 0.0254,
        pit: { shape: 'round', diameterM: 1.2 },
        gravelPorosity: 0.3,
      }),
      'area',
    )
    const drawdownM = 1.8
    const timeConstantS = (area.areaM2 * drawdownM) / ((gallonsPerMin * gallon) / 60)
    const readings = recovery(
      { staticM: 1.7, startM: 2.1, timeConstantS },
      handTimes(timeConstantS, 2, 12),
      0,
      dice(5),
    )
    const fit = must(fitRecovery(readings, { staticM: 1.7, effectiveAreaM2: area.areaM2 }), 'fit')
    const inflow = inflowM3PerS(fit.specificCapacityM2PerS?.value ?? Number.NaN, drawdownM)
    expect((inflow / gallon) * 60).toBeCloseTo(gallonsPerMin, 3)
    expect(fillTimeS(1200 * gallon, inflow) / 60).toBeCloseTo(minutes, 1)
  },
)
