import { describe, expect, test } from 'vitest'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import type { Fact } from '@/lib/domain/logbook/kinds'
import { type SeasonalLow, seasonalLow } from '@/lib/domain/logbook/seasonal-low'
import { type TestedWell, type TestFact, testReadings, testResult } from '@/lib/domain/logbook/test-result'
import { inflowAt, KEEP_ABOVE_INTAKE_M, supplyAtLow, testedDrawdownM } from '@/lib/domain/logbook/test-supply'
import { findings } from '@/lib/forms/test/findings'

const amount = (si: number) => ({ si, typed: String(si) })
const well: TestedWell = {
  casingBoreM: 0.3,
  casingOutsideM: 0.3,
  pitDiameterM: null,
  pitLengthM: null,
  pitWidthM: null,
  gravelPorosity: null,
  wellDepthM: 6,
  intakeDepthM: 5.3,
}
/** 0.3 m of bore fill by A ds/dt: with a time constant of 600 s the capacity is A/T by Slichter's relation. */
const CAPACITY = (Math.PI * 0.15 ** 2) / 600
const recovery: TestFact & { kind: 'recovery-test' } = {
  kind: 'recovery-test',
  static: amount(2),
  readings: [0, 60, 180, 300, 600, 900, 1200].map((s) => ({
    elapsed: amount(s),
    level: amount(2 + Math.exp(-s / 600)),
  })),
}
/** s = BQ + CQ² with B = 1000 s/m² and C = 10⁶ s²/m⁵, level at rest 2 m. */
const step: TestFact & { kind: 'step-test' } = {
  kind: 'step-test',
  static: amount(2),
  steps: [0.0002, 0.0004, 0.0006].map((q) => ({
    flow: amount(q),
    duration: amount(3600),
    level: amount(2 + 1000 * q + 1e6 * q * q),
  })),
}
const low: SeasonalLow = {
  kind: 'low',
  levelM: 3,
  on: '2026-09-01',
  readings: 9,
  months: 6,
  since: '2023-11-20',
}
const resultOf = (fact: TestFact) => testResult(testReadings(fact), well)

describe('what a test means for supply', () => {
  const built = { intakeDepthM: 5.3, demandM3PerS: null, storageM3: null }

  test('is capacity times the drawdown that is left over the intake at the seasonal low', () => {
    const supply = supplyAtLow(resultOf(recovery), low, built)
    // 5.3 m to the intake, less 3 m to the water and 0.3 m kept above it.
    expect(KEEP_ABOVE_INTAKE_M).toBe(0.3)
    expect(supply.available).toMatchObject({ kind: 'available', drawdownM: expect.closeTo(2, 9) })
    expect((supply.rate?.value ?? 0) / (2 * CAPACITY)).toBeCloseTo(1, 3)
    expect(supply.demand).toBeNull()
    expect(supply.missing).toEqual([expect.stringContaining('demand on this well is not recorded')])
  })

  test('says hours of pumping a day against a demand', () => {
    const supply = supplyAtLow(resultOf(recovery), low, { ...built, demandM3PerS: CAPACITY })
    expect(supply.demand).toMatchObject({ carries: true, hoursPerDayNeeded: expect.closeTo(12, 1) })
    expect(supply.missing).toEqual([])
  })

  test.each([
    ['without a level at rest', { low: { kind: 'cannot-say', message: 'No level' } as const }, 'No level'],
    ['without an intake', { intakeDepthM: null }, 'depth of the intake'],
    ['with the intake above the low', { intakeDepthM: 3.2 }, 'pump draws air'],
  ])(
    '%s gives no rate and says what is missing',
    (_, { low: other, ...more }: { low?: SeasonalLow; intakeDepthM?: number | null }, said) => {
      const supply = supplyAtLow(resultOf(recovery), other ?? low, { ...built, demandM3PerS: 1e-5, ...more })
      expect(supply.rate).toBeNull()
      expect(supply.demand).toBeNull()
      expect(supply.missing).toEqual([expect.stringContaining(said)])
    },
  )

  test('turns a step test round by s = BQ + CQ²', () => {
    const result = resultOf(step)
    // Q = 0.0005: 0.5 m + 0.25 m.
    expect(inflowAt(result, 0.75)?.value).toBeCloseTo(0.0005, 8)
    expect(testedDrawdownM(result)).toBeCloseTo(0.96, 9)
  })

  test('gives no inflow from a test that was refused', () => {
    const few = { ...recovery, readings: recovery.readings.slice(0, 2) }
    const supply = supplyAtLow(resultOf(few), low, built)
    expect(supply.rate).toBeNull()
    expect(supply.missing).toContain('This test gives no capacity, so no rate follows from it.')
  })
})

describe('the findings of a test', () => {
  const readable = (fact: TestFact, system: 'us' | 'metric') => {
    const readings = testReadings(fact)
    return findings(readings, testResult(readings, well), system)
  }

  test('tell the time constant that the readings were made with, and nine tenths as 2.3 of it', () => {
    const found = readable(recovery, 'metric')
    expect(found.refused).toBe(false)
    // ln 10 · 600 s = 1382 s = 23 min.
    expect(found.says).toMatch(/nine tenths of the drawdown in 23 min/)
    expect(found.figures.find(({ what }) => what === 'Time constant')?.value).toMatch(/^10 min/)
    expect(found.figures.find(({ what }) => what === 'Won back so far')?.value).toMatch(/^86% by 20 min/)
  })

  test('tell B and C of a step test, with the doubt of levels read at the end of steps', () => {
    const found = readable(step, 'metric')
    expect(found.figures.map(({ value }) => value)).toEqual(
      expect.arrayContaining(['1.00e+3 s/m²', '1.00e+6 s²/m⁵']),
    )
    expect(found.doubts.join(' ')).toMatch(/C comes out too large/)
  })

  test('of a refused test give the reason in the units of the reader and no figure but what came back', () => {
    const deep = {
      ...recovery,
      readings: recovery.readings.map((r) => ({ ...r, level: amount(r.level.si + 10) })),
    }
    const found = readable(deep, 'us')
    expect(found).toMatchObject({ refused: true, doubts: [] })
    expect(found.says).toMatch(/ft/)
    expect(found.says).not.toMatch(/\d m\b/)
  })
})

describe('the seasonal low', () => {
  const fact = (on: string, it: Fact): CurrentFact => ({
    id: on,
    spokenBy: on,
    visitId: 'v',
    on,
    time: null,
    fact: it,
    byName: null,
  })
  const level = (on: string, si: number, state: 'rest' | 'pumping' = 'rest') =>
    fact(on, { kind: 'level-reading', level: amount(si), state })

  test('is the deepest level at rest of three years, with what it rests on; pumping, older and later ones do not count', () => {
    const facts = [
      level('2022-08-01', 4.4),
      level('2024-08-01', 3.1),
      level('2025-08-05', 3.4),
      level('2026-03-01', 2.2),
      level('2026-04-01', 4.9, 'pumping'),
      fact('2026-05-01', recovery),
      level('2026-12-01', 4.8),
    ]
    expect(seasonalLow(facts, '2026-11-20')).toEqual({
      kind: 'low',
      levelM: 3.4,
      on: '2025-08-05',
      readings: 4,
      months: 3,
      since: '2023-11-21',
    })
  })

  test('cannot be said where nothing was read at rest', () => {
    expect(seasonalLow([level('2026-04-01', 4.9, 'pumping')], '2026-11-20')).toMatchObject({
      kind: 'cannot-say',
      message: expect.stringContaining('dry end of the season'),
    })
  })
})

describe('levels deeper than the well', () => {
  const inFeet = (si: number) => amount(si / 0.3048)
  const drawdown: TestFact & { kind: 'drawdown-test' } = {
    kind: 'drawdown-test',
    static: amount(2),
    flow: amount(0.0004),
    readings: [60, 300, 900, 1800].map((s) => ({
      elapsed: amount(s),
      level: inFeet(2.5 + 0.05 * Math.log(s)),
    })),
  }

  test('look like feet where feet would fit, in a drawdown test and in a step test', () => {
    const steps = step.steps.map((each) => ({ ...each, level: inFeet(each.level.si) }))
    for (const fact of [drawdown, { ...step, steps }]) {
      const { fit } = resultOf(fact)
      expect(fit, fact.kind).toMatchObject({ kind: 'refused', code: 'wrong-unit' })
      expect(fit.kind === 'refused' ? fit.message : '', fact.kind).toContain('these look like feet')
    }
  })

  test('and are said to be too deep where not even feet would', () => {
    const readings = drawdown.readings.map((each) => ({ ...each, level: amount(40) }))
    expect(resultOf({ ...drawdown, readings }).fit).toMatchObject({ kind: 'refused', code: 'below-bottom' })
  })

  test('are no question where the depth of the well is not known', () => {
    const unknown = { ...well, wellDepthM: null }
    const { fit } = testResult(testReadings(drawdown), unknown)
    expect(fit.kind === 'refused' ? fit.code : fit.kind).not.toBe('wrong-unit')
  })
})
