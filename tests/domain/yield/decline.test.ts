import { describe, expect, test } from 'vitest'
import { addDays } from '@/lib/domain/quantity/day'
import { appraiseYield } from '@/lib/domain/yield/decline/appraise'
import { bySuspicion, callsAcrossFleet } from '@/lib/domain/yield/decline/fleet'
import type { YieldVisit, YieldWell } from '@/lib/domain/yield/decline/types'
import { simulateFleet } from '../../sim/fleet'
import { lookAtFleet } from '../../sim/look'
import { asOfPoints, causeFigures, flagFigures, outlookFigures } from '../../sim/score'
import { WORLD } from '../../sim/settings'

const WELL: YieldWell = { wellDepthM: 9, intakeDepthM: 8.5, demandM3PerS: null, installedOn: '2015-01-01' }
const SETTINGS = { falseAlarmShare: 0.05 }

/** Four visits a year for ten years: capacity in L/s/m by year, static level steady with a small wobble. */
function visits(capacity: (year: number) => number): YieldVisit[] {
  return Array.from({ length: 40 }, (_, i) => {
    const year = i / 4
    const wobble = 1 + 0.02 * Math.sin(i * 2.3)
    const flowM3PerS = 0.0004 * wobble
    const staticM = 2 + 0.4 * Math.sin(2 * Math.PI * year)
    const drawdownM = flowM3PerS / (capacity(year) / 1000)
    return {
      on: addDays('2015-01-10', Math.round(year * 365.25)),
      staticM,
      pumpingM: staticM + drawdownM,
      flowM3PerS,
      pumpedS: 3600,
    }
  })
}

describe('one well', () => {
  test('that holds its capacity is not flagged and has no date', () => {
    const standing = appraiseYield(
      WELL,
      visits(() => 0.4),
      [],
      SETTINGS,
    )
    expect(standing.flag).toBe(false)
    expect(standing.cause).toBe('steady')
    expect(standing.outlook.to75Percent).toBeNull()
  })

  test('that loses a tenth a year is flagged, named as the well, and dated in order', () => {
    const standing = appraiseYield(
      WELL,
      visits((year) => 0.4 * Math.exp(-0.1 * Math.max(0, year - 4))),
      [],
      SETTINGS,
    )
    expect(standing.flag).toBe(true)
    expect(standing.cause).toBe('well')
    const date = standing.outlook.to75Percent
    expect(date).not.toBeNull()
    if (date?.low && date.on) expect(date.low <= date.on).toBe(true)
    if (date?.high && date.on) expect(date.on <= date.high).toBe(true)
    expect(standing.sentence.length).toBeGreaterThan(20)
  })

  test('does not change its answer when the measuring point is moved up half a metre', () => {
    const moved = (list: YieldVisit[]) =>
      list.map((v) => ({ ...v, staticM: (v.staticM ?? 0) + 0.5, pumpingM: (v.pumpingM ?? 0) + 0.5 }))
    const list = visits((year) => 0.4 * Math.exp(-0.08 * year))
    const deeper = { ...WELL, wellDepthM: 9.5, intakeDepthM: 9 }
    expect(appraiseYield(deeper, moved(list), [], SETTINGS).flag).toBe(
      appraiseYield(WELL, list, [], SETTINGS).flag,
    )
  })

  test('is not flagged for one slip of a unit', () => {
    const list = visits(() => 0.4)
    const slipped = list.map((v, i) => (i === 39 ? { ...v, flowM3PerS: (v.flowM3PerS ?? 0) / 3.785 } : v))
    expect(appraiseYield(WELL, slipped, [], SETTINGS).flag).toBe(false)
  })

  test('says no more than flow readings without levels allow', () => {
    const list = visits(() => 0.4).map((v) => ({ ...v, staticM: null, pumpingM: null }))
    const standing = appraiseYield(WELL, list, [], SETTINGS)
    expect(standing.capacity).toBeNull()
    expect(standing.outlook.to75Percent).toBeNull()
    expect(standing.flag).toBe(false)
  })

  test('without any reading has nothing to say', () => {
    const standing = appraiseYield(WELL, [], [], SETTINGS)
    expect(standing).toMatchObject({
      tests: 0,
      capacity: null,
      baseline: null,
      flag: false,
      cause: 'unclear',
    })
  })
})

describe('an invented fleet with known truth', () => {
  const fleet = simulateFleet({ ...WORLD, wells: 120, seed: 20_260 })
  const looked = lookAtFleet(fleet, 0.05)

  test('is flagged where it declines, and hardly where it does not, with one look a visit', () => {
    const figures = flagFigures(looked)
    // Loose bounds: a fleet of this size varies. `npm run bench` measures the figures of the README.
    expect(figures.falseAlarms.steadyAndTable).toBeLessThanOrEqual(0.08)
    expect(figures.sensitivity.clear).toBeGreaterThanOrEqual(0.9)
    expect(causeFigures(looked).balanced).toBeGreaterThanOrEqual(0.75)
  })

  test('is dated with intervals that are neither too narrow nor too wide', () => {
    const to75 = outlookFigures(asOfPoints(looked))
    expect(to75.coverage).toBeGreaterThanOrEqual(0.7)
    expect(to75.coverage).toBeLessThanOrEqual(0.95)
    expect(to75.widthYears).toBeLessThanOrEqual(2)
    const short = outlookFigures(asOfPoints(looked, 'shortOn'), 'belowDemand')
    expect(short.dated).toBeGreaterThan(20)
    expect(short.coverage).toBeGreaterThanOrEqual(0.65)
  })

  test('of wells that hold their capacity is left alone in cold water with gaps, over falling tables too', () => {
    const holding = simulateFleet({
      ...WORLD,
      wells: 30,
      seed: 31,
      capacitySeason: [0.02, 0.08],
      missingStatics: 0.35,
      shares: { steady: 0.4, clogging: 0, watertable: 0.6, pump: 0, rehabilitated: 0 },
    })
    const { falseAlarms } = flagFigures(lookAtFleet(holding, 0.05))
    expect(falseAlarms.steadyAndTable).toBeLessThanOrEqual(0.1)
  })

  test('is ordered by suspicion, and called as a whole never more freely than well by well', () => {
    const wells = looked.map(({ well, last }) => ({ well, standing: last }))
    const order = bySuspicion(wells).map(({ standing }) => standing.suspicion)
    expect(order).toEqual([...order].sort((a, b) => b - a))
    const called = callsAcrossFleet(wells, 0.05)
    expect(called.every(({ standing }) => standing.flag)).toBe(true)
    expect(called.length).toBeGreaterThan(0)
  })
})
