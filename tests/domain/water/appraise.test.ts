import { describe, expect, test } from 'vitest'
import { appraiseWater, WATER_SETTINGS } from '@/lib/domain/water/appraise'
import { PLAN, samplingSheet, testDuties } from '@/lib/domain/water/sampling'
import type { Sample } from '@/lib/domain/water/types'
import { CLEAR, sample } from './make'

const on = (day: string, lines: readonly string[], change: Partial<Sample> = {}): Sample =>
  sample(lines, { id: `s-${day}`, sampledAt: `${day}T08:00`, ...change })
const stand = (samples: readonly Sample[]) => appraiseWater(samples, [], WATER_SETTINGS)

describe("a well's water", () => {
  test('without a sample is not tested, and bacteria, nitrate and metals are due', () => {
    expect(stand([])).toMatchObject({ verdict: 'not-tested', asOf: null, findings: [], chain: null })
    expect(stand([]).duties.map((duty) => [duty.group, duty.dueOn])).toEqual([
      ['bacteria', null],
      ['nitrate', null],
      ['metals', null],
    ])
  })
  test('bacteria in June and nitrate in March together meet', () => {
    expect(
      stand([on('2025-03-01', ['Nitrate-N | 1 | mg/L']), on('2025-06-01', ['Total coliform | Absent'])]),
    ).toMatchObject({ verdict: 'meets', asOf: '2025-06-01', notTested: [] })
  })
  test('a nitrate result of two years before says nothing any more', () => {
    const standing = stand([
      on('2023-03-01', ['Nitrate-N | 1 | mg/L']),
      on('2025-06-01', ['Total coliform | Absent']),
    ])
    expect(standing).toMatchObject({ verdict: 'not-tested', notTested: ['Nitrate'] })
    expect(standing.findings.find((each) => each.analyte === 'nitrate')).toMatchObject({ reason: 'outdated' })
  })
  test('arsenic above its limit four years ago is not forgotten when the next sheet leaves it out', () => {
    expect(
      stand([on('2021-03-01', [...CLEAR, 'Arsenic | 22 | ug/L']), on('2025-06-01', CLEAR)]).verdict,
    ).toBe('exceeds')
  })
  test('what is inconclusive, and what is asked, stand among the next steps', () => {
    const standing = stand([on('2025-06-01', [...CLEAR, 'Arsenic | <20 | ug/L', 'Lead | 15 | mg/L'])])
    expect(standing.next.map((step) => step.kind)).toEqual(
      expect.arrayContaining(['chain', 'answer', 'repeat', 'test']),
    )
    expect(standing.next.find((step) => step.kind === 'repeat')?.text).toContain('Arsenic')
  })
  test('the worst stands first, each finding with its sample and day', () => {
    const [first] = stand([on('2025-06-01', [...CLEAR, 'Arsenic | 22 | ug/L'])]).findings
    expect(first).toMatchObject({
      analyte: 'arsenic',
      verdict: 'exceeds',
      sampleId: 's-2025-06-01',
      sampledOn: '2025-06-01',
    })
  })
  test('the scheme in the settings is the one that judges', () => {
    const water = [
      on('2025-06-01', [
        'Total coliform | Absent',
        'E. coli | Absent',
        'Nitrate | 46 | mg/L as NO3',
        'Nitrite | 0.05 | mg/L as NO2',
      ]),
    ]
    expect(appraiseWater(water, [], { ...WATER_SETTINGS, scheme: 'eu' })).toMatchObject({
      verdict: 'meets',
      edition: expect.stringContaining('2020/2184'),
    })
    expect(appraiseWater(water, [], WATER_SETTINGS).verdict).toBe('exceeds')
  })
  test("a laboratory's own holding time is taken for its samples only", () => {
    const late = on('2025-06-01', CLEAR, { receivedAt: '2025-06-01T18:00' })
    expect(
      appraiseWater([late], [], { ...WATER_SETTINGS, labHolding: { 'Sorrel Lab': { 'total-coliform': 6 } } })
        .verdict,
    ).toBe('inconclusive')
    expect(
      appraiseWater([late], [], { ...WATER_SETTINGS, labHolding: { Other: { 'total-coliform': 6 } } })
        .verdict,
    ).toBe('meets')
  })
})

describe('trend of nitrate', () => {
  const yearly = (values: readonly string[]) =>
    values.map((value, i) => on(`${2015 + i}-06-01`, [`Nitrate-N | ${value} | mg/L`]))
  const trend = (values: readonly string[]) =>
    stand(yearly(values)).series.find((each) => each.analyte === 'nitrate')?.trend
  test('a steady rise through non-detects is established', () => {
    const rise = trend(['<0.5', '<0.5', '0.9', '1.4', '2.1', '2.4', '3.0', '3.6', '4.1'])
    expect(rise).toMatchObject({ kind: 'trend', established: true, nonDetects: 2, n: 9 })
    expect(rise?.kind === 'trend' && rise.perYear).toBeCloseTo(0.5, 1)
  })
  test('seven points are too few', () =>
    expect(trend(['1', '2', '3', '4', '5', '6', '7'])).toEqual({ kind: 'too-few', have: 7, need: 8 }))
  test('limits that fell over the years make no trend', () => {
    expect(trend(['<5', '<5', '<2', '<2', '<1', '<1', '<0.5', '<0.5'])).toMatchObject({
      kind: 'mostly-non-detect',
    })
  })
  test('what a well usually holds counts non-detects as such: never as zero, never as half', () => {
    const level = (values: readonly string[]) =>
      stand(yearly(values)).series.find((each) => each.analyte === 'nitrate')?.level
    // By hand: 3 of 5 at or below 2; the fifth lies under the smallest measured.
    expect(level(['<1', '2', '2', '4', '5'])).toMatchObject({
      kind: 'level',
      median: { kind: 'value', value: 2 },
      ninetieth: { kind: 'value', value: 5 },
      nonDetects: 1,
    })
    expect(level(['<1', '<1', '<1', '<1', '5'])).toMatchObject({ median: { kind: 'below', value: 5 } })
    expect(level(['<1', '<0.5', '<2'])).toEqual({
      kind: 'all-non-detect',
      n: 3,
      lowestLimit: 0.5,
      highestLimit: 2,
    })
    expect(level(['1', '2'])).toEqual({ kind: 'too-few', have: 2, need: 3 })
    expect(
      stand([on('2025-06-01', CLEAR)]).series.find(({ analyte }) => analyte === 'total-coliform')?.level,
    ).toBeNull()
  })
  test('bacteria have none', () => {
    expect(stand([on('2025-06-01', CLEAR)]).series.find((each) => each.analyte === 'e-coli')?.trend).toEqual({
      kind: 'not-a-substance',
    })
  })
})

describe('what is to be tested next', () => {
  const samples = [on('2025-01-31', [...CLEAR, 'Arsenic | 1 | ug/L'])]
  test('bacteria and nitrate after twelve calendar months, metals after 36', () => {
    expect(testDuties(samples, [], PLAN).map((duty) => [duty.group, duty.dueOn])).toEqual([
      ['bacteria', '2026-01-31'],
      ['nitrate', '2026-01-31'],
      ['metals', '2028-01-31'],
    ])
  })
  test('a flood makes bacteria and nitrate due on its day, with the source', () => {
    const duties = testDuties(samples, [{ kind: 'test-again', on: '2025-04-10', event: 'flooded' }], PLAN)
    expect(duties.filter((duty) => duty.dueOn === '2025-04-10').map((duty) => duty.group)).toEqual([
      'bacteria',
      'nitrate',
    ])
    expect(duties[0]).toMatchObject({
      why: expect.stringContaining('flood'),
      source: expect.stringContaining('EPA'),
    })
  })
  test('a flood before the last sample is over', () => {
    expect(
      testDuties(samples, [{ kind: 'test-again', on: '2024-12-10', event: 'flooded' }], PLAN)[0]?.dueOn,
    ).toBe('2026-01-31')
  })
})

describe('the sampling sheet', () => {
  const sheet = (sampledAt: string | null) =>
    samplingSheet(
      ['total-coliform', 'e-coli', 'nitrate', 'nitrite', 'lead', 'copper', 'ph', 'odour'],
      sampledAt,
      { chlorinated: false, labHolding: {}, setupHours: 4 },
    )
  test('groups bottles, and the shortest clock sets the latest drop-off', () => {
    const made = sheet('2025-06-02T08:00')
    expect(made.bottles.map((bottle) => [bottle.bottle, bottle.latestDropOff])).toEqual([
      ['bacteria', '2025-06-03T10:00'],
      ['nitrate', '2025-06-04T04:00'],
      ['lead and copper, first draw', expect.stringContaining('2025-12-')],
      ['general', null],
    ])
    expect(made.latestDropOff).toBe('2025-06-03T10:00')
    expect(made.noRule).toEqual(['odour'])
  })
  test('without a time of day there is no drop-off time to print', () => {
    expect(sheet('2025-06-02').latestDropOff).toBeNull()
    expect(sheet(null).latestDropOff).toBeNull()
  })
})
