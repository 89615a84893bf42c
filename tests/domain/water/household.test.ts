import { describe, expect, test } from 'vitest'
import { NOTICE_ELEMENTS, noticeKind, writeNotice } from '@/lib/domain/water/notice'
import { samplingSheet } from '@/lib/domain/water/sampling'
import { coliClass, combinedRisk, inspect } from '@/lib/domain/water/sanitary'
import { sheetChecks, sheetIndices } from '@/lib/domain/water/sheet-checks'
import { RETEST, TARGETS } from '@/lib/domain/water/tables/disinfection'
import { GROUNDWATER_2030, WHO_DUG_WELL } from '@/lib/domain/water/tables/sanitary'
import { result, sample } from './make'

const facts = {
  well: 'Mabe Meadow',
  sampledOn: '2026-05-04',
  doing: null,
  earliestEnd: null,
  clearNeeded: 2,
  contact: { name: 'Fernhollow Wellwrights', phone: '555-0100', address: 'Mill Reach 3' },
  locale: 'en-US' as const,
}
const cause = (chain: string) => ({ chain, name: chain, level: '12', limit: '10' })

describe('the notice to a household', () => {
  // Source: the ten elements of 40 CFR 141.205(a).
  test('holds all ten elements and says whom to call', () => {
    const notice = writeNotice({ ...facts, causes: [cause('bacteria')] })
    if (notice.kind === 'cannot-say') throw new Error(notice.need.join())
    for (const element of NOTICE_ELEMENTS)
      expect(notice.elements[element].length, element).toBeGreaterThan(10)
    expect(notice.text).toContain('555-0100')
  })

  test('says boil for bacteria alone, and never where nitrate or a metal is above its limit', () => {
    expect(noticeKind(['bacteria'])).toBe('boil')
    for (const chain of ['nitrate', 'arsenic', 'lead']) {
      expect(['do-not-drink', 'do-not-use']).toContain(noticeKind([chain]))
      expect(noticeKind(['bacteria', chain])).not.toBe('boil')
    }
  })

  test('cannot be written without a cause, and says what is missing', () => {
    expect(writeNotice({ ...facts, causes: [] }).kind).toBe('cannot-say')
  })
})

describe('the sanitary inspection', () => {
  const all = (answer: 'yes' | 'no') => WHO_DUG_WELL.questions.map(() => answer)

  test('counts a yes as a risk, and too few answers as no score', () => {
    const low = inspect(WHO_DUG_WELL, all('no'))
    const high = inspect(WHO_DUG_WELL, all('yes'))
    expect(low.kind === 'scored' && low.risk.high).toBe('low')
    expect(high.kind === 'scored' && high.risk.low).toBe('very-high')
    expect(inspect(GROUNDWATER_2030, ['no']).kind).toBe('too-few')
  })

  test('read with E. coli, the worse of the two speaks; without a count nothing is said', () => {
    const inspected = inspect(WHO_DUG_WELL, all('no'))
    const coli = result('E. coli | 120 | MPN/100 mL | 1')
    expect(coliClass(coli)).not.toBe('low')
    const both = combinedRisk(inspected, coli)
    expect(both.kind === 'risk' && both.risk).not.toBe('low')
    expect(combinedRisk(inspected, null).kind).toBe('cannot-say')
  })
})

test('a sampling sheet names a bottle and its latest drop-off for bacteria', () => {
  // Source: 30 h for coliform in drinking water, 40 CFR 141.852 as seen in a state laboratory's sheet.
  const sheet = samplingSheet(['e-coli'], '2026-05-04T08:00', {
    chlorinated: false,
    labHolding: {},
    setupHours: 2,
  })
  expect(sheet.bottles.length).toBe(1)
  expect(sheet.latestDropOff).toBe('2026-05-05T12:00')
})

test('a sheet without ions has no balance to check, and says nothing about it', () => {
  const sheet = sample(['E. coli | Absent'])
  expect(sheetChecks(sheet)).toEqual([])
  expect(Object.values(sheetIndices(sheet, null)).every((index) => index === null)).toBe(true)
})

test('the strengths and waits of disinfection name their sources', () => {
  // Source: US CDC, 100 mg/L after a flood; Ontario, 50 to 200 mg/L; retest after 5 to 7 days of use.
  expect(TARGETS.find((row) => row.use.startsWith('after a flood'))).toMatchObject({
    lowMgL: 100,
    highMgL: 100,
  })
  for (const row of TARGETS) expect(row.source.length > 0 && row.lowMgL <= row.highMgL).toBe(true)
  expect(RETEST.map((row) => row.days)).toEqual([5, 7])
})
