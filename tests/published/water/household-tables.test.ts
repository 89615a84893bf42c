/** The smaller tables row by row: events after which water is tested, contact times, pH, sanitary classes and their matrix. */
import { describe, expect, test } from 'vitest'
import { AGAIN_EVENTS } from '@/lib/domain/water/events'
import { combinedRisk, type Inspection, inspect } from '@/lib/domain/water/sanitary'
import { CAUTIONS, CONTACT, DUG_WELL_DOUBTS, PH_RANGE, TARGETS } from '@/lib/domain/water/tables/disinfection'
import { AGAIN, GROUP_ANALYTES } from '@/lib/domain/water/tables/frequency'
import { type RiskClass, type SanitaryForm, WHO_DUG_WELL } from '@/lib/domain/water/tables/sanitary'
import { result } from '../../domain/water/make'

describe('test again when: each event with the tests its source asks for', () => {
  // US EPA, Protect Your Home's Water (2021); US CDC; Health Canada (2019, 2024); Lambton Public Health (2013); NGWA; NH RSA 477:4-c.
  test.each([
    ['flooded', ['bacteria', 'nitrate'], /EPA.*CDC.*Health Canada/],
    ['opened', ['bacteria'], /EPA.*CDC/],
    ['changed', ['bacteria', 'general', 'metals'], /EPA.*CDC.*Lambton/],
    ['land-disturbed', ['general', 'radio-and-organics'], /EPA/],
    ['infant', ['nitrate', 'bacteria'], /EPA/],
    ['season', ['bacteria'], /Health Canada/],
    ['wildfire', ['bacteria', 'general'], /Health Canada/],
    ['illness', ['bacteria'], /Health Canada/],
    ['septic-trouble', ['bacteria'], /NGWA/],
    ['sold', ['bacteria', 'nitrate', 'general', 'metals'], /RSA 477/],
  ] as const)('%s', (event, groups, source) => {
    const rows = AGAIN.filter((row) => row.event === event)
    expect(rows).toHaveLength(1)
    expect(rows[0]?.groups).toEqual(groups)
    expect(rows[0]?.source).toMatch(source)
  })
  test('no event is without its row', () =>
    expect(AGAIN.map(({ event }) => event).sort()).toEqual([...AGAIN_EVENTS].sort()))
  test('bacteria means total coliform with E. coli, nitrate comes with nitrite', () => {
    expect(GROUP_ANALYTES.bacteria).toEqual(['total-coliform', 'e-coli'])
    expect(GROUP_ANALYTES.nitrate).toEqual(['nitrate', 'nitrite'])
  })
})

describe('shock chlorination', () => {
  test.each([
    ['Ontario Ministry of the Environment', 12],
    ['Brant County Health Unit', 12],
    // "Overnight": eight hours are our reading of a night.
    ['US CDC', 8],
    ['WHO / WEDC', 0.5],
  ] as const)('%s leaves it %d h', (source, hours) => {
    expect(CONTACT.filter((row) => row.source.startsWith(source)).map((row) => row.hours)).toEqual([hours])
  })
  test.each([
    ['Ontario', 50, 200],
    ['Alberta Health Services', 50, 50],
    ['US CDC', 100, 100],
    ['Alberta Agriculture', 200, 200],
    ['American Ground Water Trust', 200, 300],
  ] as const)('%s asks for %d to %d mg/L', (source, low, high) => {
    const row = TARGETS.find((each) => each.source.startsWith(source))
    expect([row?.lowMgL, row?.highMgL]).toEqual([low, high])
  })
  test('works best from pH 6 to 7.5 (American Ground Water Trust)', () =>
    expect(PH_RANGE).toMatchObject({ low: 6, high: 7.5 }))
  test.each([
    /Never mix/,
    /Do not go into a well or pit/,
    /power off/,
    /gloves/i,
    /bypass filters and the softener/,
    /away from the septic/,
    /out of streams/,
    /Nobody drinks/,
  ])('the caution %s stands once, with its source', (words) => {
    const rows = CAUTIONS.filter(({ text }) => words.test(text))
    expect(rows).toHaveLength(1)
    expect(rows[0]?.source.length).toBeGreaterThan(5)
  })
  test('the doubts about dug wells are those of Brant, AGWT, St. Clair and Alberta', () => {
    expect(DUG_WELL_DOUBTS.map(({ source }) => source.split(/[ ,]/)[0])).toEqual([
      'Brant',
      'American',
      'St.',
      'Alberta',
    ])
  })
})

describe('score and E. coli together (WHO 4th ed. Figs 5.2 and 5.3; RADWQ 2012: from memory, and shown so)', () => {
  const ten: SanitaryForm = { ...WHO_DUG_WELL, questions: WHO_DUG_WELL.questions.slice(0, 10) }
  const scored = (yes: number): Inspection =>
    inspect(
      ten,
      ten.questions.map((_, i) => (i < yes ? 'yes' : 'no')),
    )
  const COLI = { '0': '<1', '1-10': '7', '11-100': '60', '>100': '400' } as const
  const ROWS: readonly [keyof typeof COLI, readonly RiskClass[]][] = [
    ['0', ['low', 'intermediate', 'high', 'very-high']],
    ['1-10', ['intermediate', 'intermediate', 'high', 'very-high']],
    ['11-100', ['high', 'high', 'high', 'very-high']],
    ['>100', ['very-high', 'very-high', 'very-high', 'very-high']],
  ]
  const CASES = ROWS.flatMap(([coli, risks]) =>
    // Scores at both ends of each class: 0-2, 3-5, 6-8, 9-10.
    [
      [0, 2],
      [3, 5],
      [6, 8],
      [9, 10],
    ].flatMap((ends, i) => ends.map((score) => [coli, score, risks[i] ?? 'low'] as const)),
  )
  test.each(CASES)('E. coli %s and a score of %d: %s', (coli, score, risk) => {
    const combined = combinedRisk(scored(score), result(`E. coli | ${COLI[coli]} | MPN/100 mL`))
    expect(combined).toMatchObject({ kind: 'risk', risk, seen: 'memory' })
  })
  test('"not sure" widens the class, and the worse end counts', () => {
    const unsure = inspect(
      ten,
      ten.questions.map((_, i) => (i < 4 ? 'not-sure' : 'no')),
    )
    expect(unsure).toMatchObject({ risk: { low: 'low', high: 'intermediate' } })
    expect(combinedRisk(unsure, result('E. coli | Absent'))).toMatchObject({ risk: 'intermediate' })
  })
  test('E. coli present without a count has no class, and a test that could see no fewer than ten neither', () => {
    for (const text of ['E. coli | Present', 'E. coli | <10 | MPN/100 mL'])
      expect(combinedRisk(scored(0), result(text)).kind).toBe('cannot-say')
  })
})
