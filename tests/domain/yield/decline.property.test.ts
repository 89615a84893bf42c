import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { addDays, isDay } from '@/lib/domain/quantity/day'
import { appraiseYield } from '@/lib/domain/yield/decline/appraise'
import type { DateOutlook, YieldEvent, YieldStanding, YieldVisit } from '@/lib/domain/yield/decline/types'

const maybe = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: null, freq: 5 })
const level = fc.oneof(
  { weight: 6, arbitrary: fc.double({ min: 0.2, max: 12, noNaN: true }) },
  { weight: 1, arbitrary: fc.constantFrom(0, -1.5, 1e-9, 400) },
)
const flow = fc.oneof(
  { weight: 6, arbitrary: fc.double({ min: 1e-5, max: 2e-3, noNaN: true }) },
  { weight: 1, arbitrary: fc.constantFrom(0, 1e-12, 50, -0.001) },
)
const on = fc.integer({ min: 0, max: 9000 }).map((offset) => addDays('2000-01-01', offset))
const visit: fc.Arbitrary<YieldVisit> = fc.record({
  on,
  staticM: maybe(level),
  pumpingM: maybe(level),
  flowM3PerS: maybe(flow),
  pumpedS: maybe(fc.constantFrom(0, 60, 3600, 86_400)),
  capacityM2PerS: maybe(fc.double({ min: 0, max: 0.1, noNaN: true })),
})
const event: fc.Arbitrary<YieldEvent> = fc.record({
  on,
  kind: fc.constantFrom('rehabilitated', 'rebuilt', 'pump-replaced', 'flooded', 'ran-dry', 'other'),
})
const well = fc.record({
  wellDepthM: maybe(fc.double({ min: 0, max: 30, noNaN: true })),
  intakeDepthM: maybe(fc.double({ min: 0, max: 30, noNaN: true })),
  demandM3PerS: maybe(fc.constantFrom(0, 1e-9, 2e-4, 1)),
  installedOn: maybe(on),
})
const SETTINGS = { falseAlarmShare: 0.05 }

/** Every number finite, every date a day, low, date and high in order, chances between 0 and 1. */
function expectSound(standing: YieldStanding): void {
  const walk = (value: unknown, path: string): void => {
    if (typeof value === 'number') expect(Number.isFinite(value), `${path} is ${value}`).toBe(true)
    else if (value !== null && typeof value === 'object')
      for (const [key, inner] of Object.entries(value)) walk(inner, `${path}.${key}`)
  }
  walk(standing, 'standing')
  for (const date of [standing.outlook.to75Percent, standing.outlook.belowDemand]) expectOrdered(date)
  expect(standing.suspicion).toBeGreaterThanOrEqual(0)
  expect(standing.suspicion).toBeLessThanOrEqual(1)
  expect(standing.sentence).not.toMatch(/NaN|undefined|null|Infinity/)
  if (standing.baseline) {
    expect(standing.baseline.low).toBeLessThanOrEqual(standing.baseline.m2PerS)
    expect(standing.baseline.m2PerS).toBeLessThanOrEqual(standing.baseline.high)
  }
  if (standing.trend.kind === 'trend') {
    expect(standing.trend.low).toBeLessThanOrEqual(standing.trend.perYear)
    expect(standing.trend.perYear).toBeLessThanOrEqual(standing.trend.high)
    expect(standing.trend.p).toBeGreaterThanOrEqual(0)
    expect(standing.trend.p).toBeLessThanOrEqual(1)
  }
}

function expectOrdered(date: DateOutlook | null): void {
  if (date === null) return
  const days = [date.low, date.on, date.high].filter((day) => day !== null)
  for (const day of days) expect(isDay(day)).toBe(true)
  expect([...days].sort()).toEqual(days)
}

describe('whatever was written down', () => {
  test('an appraisal answers in finite numbers and ordered dates', () => {
    const records = fc.tuple(well, fc.array(visit, { maxLength: 40 }), fc.array(event, { maxLength: 4 }))
    fc.assert(
      fc.property(records, ([of, visits, events]) =>
        expectSound(appraiseYield(of, visits, events, SETTINGS)),
      ),
      { numRuns: 300 },
    )
  })

  test('tests of two days in one week, one with a level out of all reason, make no slope of a year', () => {
    const read: Partial<YieldVisit>[] = [
      { capacityM2PerS: 5e-324 },
      { capacityM2PerS: 5e-324, staticM: 0.2 },
      { capacityM2PerS: 5e-324 },
      { capacityM2PerS: 5e-324, staticM: 400, on: '2000-01-02' },
      { pumpingM: 0.2, on: '2000-10-01' },
    ]
    const visits = read.map((some) => ({
      ...{ on: '2000-01-01', staticM: null, pumpingM: null, flowM3PerS: null, pumpedS: null },
      ...some,
    }))
    const of = { wellDepthM: 0, intakeDepthM: null, demandM3PerS: null, installedOn: null }
    const standing = appraiseYield(of, visits, [], SETTINGS)
    expectSound(standing)
    expect(standing.trend.kind).toBe('too-few')
  })

  test('the order in which visits and events are handed over changes nothing', () => {
    const records = fc.tuple(
      fc.uniqueArray(visit, { maxLength: 20, selector: (v) => v.on }),
      fc.array(event, { maxLength: 3 }),
    )
    fc.assert(
      fc.property(records, ([visits, events]) => {
        const of = { wellDepthM: 9, intakeDepthM: 8, demandM3PerS: 2e-4, installedOn: null }
        expect(appraiseYield(of, [...visits].reverse(), [...events].reverse(), SETTINGS)).toEqual(
          appraiseYield(of, visits, events, SETTINGS),
        )
      }),
      { numRuns: 60 },
    )
  })
})

describe('odd records', () => {
  const of = { wellDepthM: 9, intakeDepthM: 8.5, demandM3PerS: 3e-4, installedOn: null }
  const plain = (i: number): YieldVisit => ({
    on: addDays('2001-01-01', 20 * i),
    staticM: 2 + 0.3 * Math.sin(i),
    pumpingM: 3.2 + 0.3 * Math.sin(i) + 0.01 * i,
    flowM3PerS: 4e-4 * (1 + 0.02 * Math.sin(3 * i)),
    pumpedS: 3600,
  })
  const cases: [string, YieldVisit[]][] = [
    ['one visit', [plain(0)]],
    ['the same visit thirty times on one day', Array.from({ length: 30 }, () => plain(0))],
    [
      'two visits on each day',
      Array.from({ length: 30 }, (_, i) => ({ ...plain(i >> 1), on: plain(i >> 1).on })),
    ],
    ['400 visits', Array.from({ length: 400 }, (_, i) => plain(i))],
    ['the same readings for ever', Array.from({ length: 40 }, (_, i) => ({ ...plain(0), on: plain(i).on }))],
    [
      'no drawdown at all',
      Array.from({ length: 30 }, (_, i) => ({ ...plain(i), pumpingM: plain(i).staticM })),
    ],
    [
      'levels swapped throughout',
      Array.from({ length: 30 }, (_, i) => ({
        ...plain(i),
        staticM: plain(i).pumpingM,
        pumpingM: plain(i).staticM,
      })),
    ],
    ['no flow at all', Array.from({ length: 30 }, (_, i) => ({ ...plain(i), flowM3PerS: 0 }))],
    [
      'nothing read',
      Array.from({ length: 30 }, (_, i) => ({
        on: plain(i).on,
        staticM: null,
        pumpingM: null,
        flowM3PerS: null,
        pumpedS: null,
      })),
    ],
    [
      'one static in thirty',
      Array.from({ length: 30 }, (_, i) => (i === 4 ? plain(i) : { ...plain(i), staticM: null })),
    ],
    [
      'water above the measuring point',
      Array.from({ length: 30 }, (_, i) => ({ ...plain(i), staticM: -0.4 })),
    ],
  ]
  test.each(cases)('%s', (_, visits) => {
    const standing = appraiseYield(of, visits, [], SETTINGS)
    expectSound(standing)
    if (visits.every((v) => v.flowM3PerS === null || v.pumpingM === null || v.flowM3PerS === 0)) {
      expect(standing.flag).toBe(false)
      expect(standing.capacity).toBeNull()
    }
  })
})
