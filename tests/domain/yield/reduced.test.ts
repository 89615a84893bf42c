import { describe, expect, test } from 'vitest'
import { addDays } from '@/lib/domain/quantity/day'
import { appraiseYield } from '@/lib/domain/yield/decline/appraise'
import type { YieldStanding, YieldVisit, YieldWell } from '@/lib/domain/yield/decline/types'
import { simulateFleet } from '../../sim/fleet'
import { WORLD } from '../../sim/settings'

const WELL: YieldWell = { wellDepthM: 9, intakeDepthM: 8.5, demandM3PerS: 0.0004, installedOn: '2012-01-01' }

type Course = {
  capacity?: (year: number) => number
  fall?: (year: number) => number
  pump?: (year: number) => number
}

/** Visits with small repeatable noise; capacity in m²/s as a part of 0.0004, fall in m, pump as a part of its flow. */
function visits(count: number, perYear: number, { capacity, fall, pump }: Course): YieldVisit[] {
  return Array.from({ length: count }, (_, i) => {
    const year = i / perYear
    const noise = Math.sin(i * 12.9898)
    const staticM = 2 + 0.4 * Math.sin(2 * Math.PI * year) + (fall?.(year) ?? 0) + 0.02 * Math.sin(i * 7.1)
    const flowM3PerS = 0.0004 * (pump?.(year) ?? 1) * (1 + 0.02 * noise)
    return {
      on: addDays('2012-01-10', Math.round(year * 365.25)),
      staticM,
      pumpingM: staticM + flowM3PerS / (0.0004 * (capacity?.(year) ?? 1)) + 0.01 * Math.sin(i * 3.3),
      flowM3PerS,
      pumpedS: 3600,
    }
  })
}

const told = (list: YieldVisit[]): YieldStanding => appraiseYield(WELL, list, [], { falseAlarmShare: 0.05 })
const clog = (year: number) => Math.exp(-0.12 * Math.max(0, year - 2))
const wear = (year: number) => Math.exp(-0.12 * Math.max(0, year - 2))

/** What no reduced record may claim. */
function claimsNothingOfTheWell(standing: YieldStanding): void {
  expect(standing.flag).toBe(false)
  expect(standing.cause).not.toBe('well')
  expect(standing.cause).not.toBe('pump')
  expect(standing.cause).not.toBe('steady')
  expect(standing.trend.kind).toBe('too-few')
  expect(standing.outlook.to75Percent).toBeNull()
  expect(standing.outlook.belowDemand).toBeNull()
}

describe('flow without levels', () => {
  test('that falls may be pump, well or table: nothing is named, and levels are asked for', () => {
    const standing = told(visits(40, 4, { pump: wear }).map((v) => ({ ...v, staticM: null, pumpingM: null })))
    claimsNothingOfTheWell(standing)
    expect(standing.cause).toBe('unclear')
    expect(standing.capacity).toBeNull()
    expect(standing.baseline).toBeNull()
    expect(standing.sentence).toContain('Only flow was read')
    expect(standing.next).toContain('static level before pumping')
  })
})

describe('levels without flow', () => {
  test('that drift apart may be pump or well: neither is named, and flow is asked for', () => {
    const standing = told(visits(40, 4, { capacity: clog }).map((v) => ({ ...v, flowM3PerS: null })))
    claimsNothingOfTheWell(standing)
    expect(standing.capacity).toBeNull()
    expect(standing.baseline).toBeNull()
    expect(standing.next).toContain('flow')
  })

  test('statics alone still show a falling table, and nothing of the well', () => {
    const fall = (year: number) => 0.3 * Math.max(0, year - 1)
    const standing = told(visits(40, 4, { fall }).map((v) => ({ ...v, flowM3PerS: null, pumpingM: null })))
    claimsNothingOfTheWell(standing)
    expect(standing.cause).toBe('water-table')
    expect(standing.sentence).toContain('Of the well itself nothing can be said')
  })
})

describe('statics missing in half of the visits', () => {
  const gaps = (list: YieldVisit[]) => list.map((v, i) => (i % 2 === 1 ? { ...v, staticM: null } : v))

  test('a clogging well is still found', () => {
    const standing = told(gaps(visits(40, 4, { capacity: clog })))
    expect(standing.flag).toBe(true)
    expect(standing.cause).toBe('well')
  })

  test('a steady well over a falling table is not called clogging, even where the last statics are missing', () => {
    const fall = (year: number) => 0.25 * Math.max(0, year - 4)
    for (const unread of [0, 1, 2, 3]) {
      const list = visits(36, 4, { fall })
      const late = gaps(list).map((v, i) => (i >= list.length - unread ? { ...v, staticM: null } : v))
      expect(told(late).flag).toBe(false)
    }
  })
})

describe('slips of a unit', () => {
  const slips: [string, (v: YieldVisit) => YieldVisit][] = [
    ['flow in gallons', (v) => ({ ...v, flowM3PerS: (v.flowM3PerS ?? 0) / 3.785 })],
    ['flow by the second', (v) => ({ ...v, flowM3PerS: (v.flowM3PerS ?? 0) / 60 })],
    ['static level in feet', (v) => ({ ...v, staticM: (v.staticM ?? 0) / 0.3048 })],
    ['pumping level in feet', (v) => ({ ...v, pumpingM: (v.pumpingM ?? 0) / 0.3048 })],
    ['levels swapped', (v) => ({ ...v, staticM: v.pumpingM, pumpingM: v.staticM })],
    ['a digit more', (v) => ({ ...v, flowM3PerS: (v.flowM3PerS ?? 0) * 10 })],
  ]
  test.each(slips)('%s is told, once or twice, and moves nothing', (_, slip) => {
    const list = visits(32, 4, {})
    const before = told(list)
    const slipped = list.map((v, i) => (i === 11 || i === 31 ? slip(v) : v))
    const standing = told(slipped)
    expect(standing.flag).toBe(false)
    expect(standing.evidence.mended + standing.evidence.leftOut).toBe(2)
    expect(standing.sentence).toContain('2 readings with a plain slip')
    expect(standing.points.filter((point) => point.setAside !== null)).toHaveLength(2)
    expect((standing.baseline?.m2PerS ?? 0) / (before.baseline?.m2PerS ?? 1)).toBeCloseTo(1, 1)
  })
})

describe('few readings', () => {
  test.each([1, 2, 3])('%d visits say nothing of a trend, and how many more are needed', (count) => {
    const standing = told(visits(count, 1, { capacity: (year) => 1 - 0.3 * year }))
    claimsNothingOfTheWell(standing)
    expect(standing.next).toContain(`${4 - count} more`)
  })

  test('one reading a year finds a loss of a tenth a year within ten years, and none where there is none', () => {
    const loss = (year: number) => Math.exp(-0.1 * Math.max(0, year - 1))
    expect(told(visits(10, 0.97, { capacity: loss })).cause).toBe('well')
    const steady = told(visits(10, 0.97, {}))
    expect(steady.flag).toBe(false)
    expect(steady.outlook.to75Percent).toBeNull()
  })

  test('one reading a year without statics read before is never flagged on a falling table', () => {
    const fleet = simulateFleet({
      ...WORLD,
      wells: 40,
      seed: 9,
      visitsPerYear: [1, 1],
      missingStatics: 0.5,
      shares: { steady: 0.5, clogging: 0, watertable: 0.5, pump: 0, rehabilitated: 0 },
    })
    const flags = fleet.filter(
      ({ well, visits: list, events }) => appraiseYield(well, list, events, { falseAlarmShare: 0.05 }).flag,
    )
    expect(flags.length).toBeLessThanOrEqual(2)
  })
})
