/** How hard our words are to read: notices for grade 6 at most, other words for owners for grade 8. */
import { describe, expect, test } from 'vitest'
import { describeFact } from '@/lib/domain/logbook/describe'
import { appraiseWater, WATER_SETTINGS } from '@/lib/domain/water/appraise'
import { INSPECT } from '@/lib/domain/water/fault'
import { NOTICE_ELEMENTS, writeNotice } from '@/lib/domain/water/notice'
import { CAUTIONS } from '@/lib/domain/water/tables/disinfection'
import { WHO_DUG_WELL } from '@/lib/domain/water/tables/sanitary'
import { CLEAR, sample } from './make'
import { grade, gradeOf } from './reading-grade'

describe('the measure', () => {
  test('gives the published grade of the published example', () => {
    // Documentation of the library flesch-kincaid: 1 sentence, 13 words, 26 syllables: 13.08.
    expect(gradeOf({ sentences: 1, words: 13, syllables: 26 })).toBeCloseTo(13.08, 9)
  })
  test('counts the words, sentences and syllables of that example as a person does, but for one', () => {
    const text = 'The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.'
    // Runs of vowels make one syllable less of "Australian" and of "reptilian": 24 for 26.
    expect(grade(text)).toBeCloseTo(gradeOf({ sentences: 1, words: 13, syllables: 24 }), 9)
  })
  test('tells hard from easy', () => {
    expect(grade('The cat sat on the mat. The dog ran to it.')).toBeLessThan(2)
    expect(
      grade(
        'Consumption of contaminated municipal infrastructure effluent necessitates immediate precautionary administrative intervention.',
      ),
    ).toBeGreaterThan(20)
  })
})

/** Runs of vowels count a little low: this much is put on top of every grade that has to be under a limit. */
const COUNTED_LOW = 1

const CHAINS = [
  'bacteria',
  'nitrate',
  'lead',
  'copper',
  'arsenic',
  'fluoride',
  'manganese',
  'uranium',
  'benzene',
  'radium-226-228',
  'pfoa',
  'boron',
  'atrazine',
]

describe('a notice', () => {
  test.each([...CHAINS.map((chain) => [chain]), ['bacteria', 'nitrate'], ['bacteria', 'lead', 'benzene']])(
    'about %s is for grade 6 at most, as a whole and in each of its ten elements',
    (...chains) => {
      const notice = writeNotice({
        well: 'Mill Spring well',
        causes: chains.map((chain) => ({ chain, name: chain, level: '22 µg/L', limit: '10 µg/L' })),
        sampledOn: '2025-06-02',
        doing: null,
        earliestEnd: '2025-06-22',
        clearNeeded: 2,
        contact: { name: 'Robin Fern', phone: '555 0100', address: '3 Mill Road' },
        locale: 'en-US',
      })
      if (notice.kind === 'cannot-say') throw new Error(notice.need.join())
      expect(grade(notice.text) + COUNTED_LOW).toBeLessThanOrEqual(6)
      for (const element of NOTICE_ELEMENTS)
        expect(grade(notice.elements[element]), element).toBeLessThanOrEqual(8)
    },
  )
})

describe('other words that owners read are for grade 8 at most', () => {
  const found = [
    'Total coliform | Present',
    'E. coli | 12 | MPN/100 mL',
    'Nitrate-N | 14 | mg/L',
    'Lead | 22 | µg/L',
  ]
  const on = (day: string, lines: readonly string[]) => sample(lines, { id: day, sampledAt: `${day}T08:00` })
  const standing = appraiseWater(
    [on('2025-06-02', found), on('2025-06-20', found)],
    [{ kind: 'disinfected', on: '2025-06-10', by: 'Maren', targetMgL: 100, contactHours: 12 }],
    WATER_SETTINGS,
  )
  const meets = appraiseWater([on('2025-06-02', CLEAR)], [], WATER_SETTINGS)
  const together = (texts: readonly string[]) => grade(texts.join('\n')) + COUNTED_LOW

  test('the steps of every chain', () => {
    expect(standing.chains.length).toBe(3)
    expect(
      together(standing.chains.flatMap(({ steps }) => steps.map(({ text }) => text))),
    ).toBeLessThanOrEqual(8)
  })
  test('the fault of a well and what to inspect', () => {
    expect(together(standing.chains.flatMap(({ fault }) => (fault ? [fault.text] : [])))).toBeLessThanOrEqual(
      8,
    )
    expect(together(INSPECT)).toBeLessThanOrEqual(8)
  })
  test('why a result meets or does not', () => {
    expect(together([...standing.findings, ...meets.findings].map(({ why }) => why))).toBeLessThanOrEqual(8)
  })
  test('what comes next', () => {
    expect(together(standing.next.map(({ text }) => text))).toBeLessThanOrEqual(8)
  })
  test('the cautions beside the dose, and the questions of the inspection', () => {
    expect(together(CAUTIONS.map(({ text }) => text))).toBeLessThanOrEqual(8)
    expect(together(WHO_DUG_WELL.questions)).toBeLessThanOrEqual(8)
  })
  test('lines of the logbook about the water', () => {
    const lines = [
      { kind: 'water-step' as const, step: 'flushed' as const, chlorineGone: 'not-tested' as const },
      { kind: 'water-step' as const, step: 'disinfected' as const },
      { kind: 'water-step' as const, step: 'notice' as const, notice: 'boil' as const, to: 'the household' },
    ]
    expect(together(lines.map((line) => describeFact(line, 'us')))).toBeLessThanOrEqual(8)
  })
})
