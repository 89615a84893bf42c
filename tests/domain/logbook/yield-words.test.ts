import { describe, expect, test } from 'vitest'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import type { Fact } from '@/lib/domain/logbook/kinds'
import { capacityForDemand, flowSeries, sayFlow, yieldMarks } from '@/lib/domain/logbook/yield-series'
import {
  inUnits,
  sayCapacity,
  sayChange,
  sayOutlook,
  sayTable,
  sayTrend,
  YIELD_WORDS,
  yieldWord,
} from '@/lib/domain/logbook/yield-words'
import { appraiseYield } from '@/lib/domain/yield/decline/appraise'

const plain = (text: string) => text.replaceAll('\u00a0', ' ')
const TODAY = '2026-11-20'
const nothing = appraiseYield(
  { wellDepthM: null, intakeDepthM: null, demandM3PerS: null, installedOn: null },
  [],
  [],
  { falseAlarmShare: 0.05 },
)
const fact = (on: string, it: Fact): CurrentFact => ({
  id: `${on} ${it.kind}`,
  spokenBy: '',
  visitId: 'v',
  on,
  time: null,
  fact: it,
  byName: null,
})

describe('how a well stands, in words', () => {
  test('tells a loss that is called from one that is only likely', () => {
    expect(yieldWord({ cause: 'well', flag: true })).toBe('losing')
    expect(yieldWord({ cause: 'well', flag: false })).toBe('may-be-losing')
    expect(yieldWord({ cause: 'pump', flag: false })).toBe('pump')
    expect(new Set(Object.values(YIELD_WORDS)).size).toBe(6)
  })

  test.each([
    ['fallen 1.2 m beyond', 'us', 'fallen 3.9 ft beyond'],
    ['(about 0.23 m a year);', 'us', '(about 0.75 ft a year);'],
    ['fallen 1.2 m beyond', 'metric', 'fallen 1.2 m beyond'],
    ['down 12 % since 10 Mar 2020 at', 'us', 'down 12 % since Mar 10, 2020 at'],
    ['since 5 Sep 2020', 'us', 'since Sep 5, 2020'],
    ['down 12 % since 10 Mar 2020 at', 'metric', 'down 12 % since 10 Mar 2020 at'],
    ['2 Of 2020 readings', 'us', '2 Of 2020 readings'],
    ['down 12 % in 4 months', 'us', 'down 12 % in 4 months'],
    ['3.5 m³ and 2.0 m/s and 1.0 mm', 'us', '3.5 m³ and 2.0 m/s and 1.0 mm'],
  ] as const)('turns lengths of a sentence for its reader: %s, %s', (sentence, units, told) => {
    expect(inUnits(sentence, units)).toBe(told)
  })
})

describe('a date with its interval', () => {
  test.each([
    [
      ['2027-06-01', '2027-01-15', '2028-02-01'],
      'about Jun 2027; 8 times in 10 between Jan 2027 and Feb 2028',
    ],
    [
      ['2024-10-31', '2024-06-23', '2025-02-16'],
      'reached about Oct 2024; 8 times in 10 between Jun 2024 and Feb 2025',
    ],
    [['2030-01-01', '2028-01-01', null], 'about Jan 2030, not before Jan 2028; the late end is open'],
    [['2030-01-01', null, '2031-01-01'], 'about Jan 2030; the early end is open'],
    [['2065-07-16', '2061-01-18', null], 'not before Jan 2061'],
    [[null, '2061-01-18', null], 'not before Jan 2061'],
    [[null, null, null], 'open: no end of the interval is known'],
  ] as const)('%o', ([on, low, high], told) => {
    expect(sayOutlook({ on, low, high }, TODAY)).toBe(told)
  })

  test('far beyond what anybody plans is only "not before", whatever its late end', () => {
    expect(sayOutlook({ on: '2060-01-01', low: '2030-01-01', high: '2100-01-01' }, TODAY)).toBe(
      'not before Jan 2030',
    )
  })
})

describe('what was measured, in sentences', () => {
  test('of a well without readings claim nothing', () => {
    expect(sayCapacity(nothing, 'us')).toMatch(/^No capacity was measured yet/)
    expect(sayTable(nothing, 'us')).toMatch(/^Too few levels/)
    expect(sayTrend(nothing.trend)).toBe('No trend: 0 of the 4 tests that it takes.')
    expect(sayFlow([], 'us')).toBe('No flow has been read yet.')
  })

  test('tell the unit of the reader', () => {
    const standing = {
      ...nothing,
      tests: 1,
      capacity: { m2PerS: 0.0005, on: '2026-03-04' },
      baseline: { m2PerS: 0.001, low: 0.0009, high: 0.0011, since: '2020-01-01' },
      evidence: { ...nothing.evidence, capacityChange: -0.5 },
    }
    expect(plain(sayCapacity(standing, 'metric'))).toBe(
      'Last measured 30.0 L/min per m on 4 Mar 2026, 1 time in all. Baseline 60.0 L/min per m since 1 Jan 2020, 8 times in 10 between 54.0 L/min per m and 66.0 L/min per m. Since then down 50 %.',
    )
    expect(sayCapacity(standing, 'us')).toContain('gal/min per ft')
  })

  test('tell of a water table only what season and weather leave', () => {
    const evidence = { ...nothing.evidence, staticFallM: 1.2, staticFallMPerYear: 0.23 }
    const likely = (waterTable: number) => ({
      evidence: { ...evidence, chance: { ...evidence.chance, waterTable } },
    })
    expect(plain(sayTable(likely(0.9), 'metric'))).toContain('fallen 1.20 m, about 0.23 m a year')
    expect(sayTable(likely(0.2), 'metric')).toContain('no fall is seen')
  })

  test('explain a p-value by what chance alone would do', () => {
    const trend = {
      kind: 'trend' as const,
      perYear: -0.088,
      low: -0.096,
      high: -0.08,
      p: 0.02,
      method: 'a line',
    }
    const told = sayTrend(trend)
    expect(told).toContain('−8.8 % a year (8 times in 10 between −9.6 % and −8.0 % a year)')
    expect(told).toContain('p = 0.020')
    expect(told).toContain('about 2 in 100')
    expect(sayTrend({ ...trend, p: 0.0034 })).toContain('about 3 in 1,000')
    expect(sayTrend({ ...trend, p: 1e-9 })).toContain('fewer than 1 in 10,000')
  })

  test('round a change to what can be spoken of', () => {
    expect([-0.41, 0.03, -0.004].map(sayChange)).toEqual(['down 41 %', 'up 3 %', 'no change to speak of'])
  })
})

describe('what the charts show beside capacity', () => {
  test('events in order of time, with those that begin a new baseline told apart', () => {
    const facts = [
      fact('2024-05-01', { kind: 'event', event: 'rehabilitated' }),
      fact('2022-05-01', { kind: 'event', event: 'flooded' }),
      fact('2023-05-01', { kind: 'event', event: 'found' }),
    ]
    expect(yieldMarks(facts)).toEqual([
      { on: '2022-05-01', what: 'flooded', resets: false },
      { on: '2024-05-01', what: 'rehabilitated', resets: true },
    ])
  })

  test('flow readings, of which the sentence says what they cannot tell', () => {
    const facts = [0.0004, 0.0003].map((si, i) =>
      fact(`202${i}-05-01`, { kind: 'flow-reading', flow: { si, typed: '' } }),
    )
    expect(plain(sayFlow(flowSeries(facts), 'metric'))).toBe(
      'Last 18.0 L/min on 1 May 2021, at most 24.0 L/min in 2 readings. Flow alone cannot tell pump, water table and well apart.',
    )
  })

  test('the capacity that the demand takes: demand over the drawdown to be had at the deepest level at rest', () => {
    const rest = [{ value: 2 }, { value: 2.7 }]
    const well = { demandM3PerS: 0.0002, intakeDepthM: 5 }
    expect(capacityForDemand(well, rest)).toBeCloseTo(0.0002 / 2, 12)
    expect(capacityForDemand({ ...well, demandM3PerS: null }, rest)).toBeNull()
    expect(capacityForDemand({ ...well, intakeDepthM: null }, rest)).toBeNull()
    expect(capacityForDemand({ ...well, intakeDepthM: 2.9 }, rest)).toBeNull()
    expect(capacityForDemand(well, [])).toBeNull()
  })
})
