/** Holding times, frequencies and qualifiers against their published rows. */
import { describe, expect, test } from 'vitest'
import { readQualifiers } from '@/lib/domain/water/qualifiers'
import { FREQUENCIES } from '@/lib/domain/water/tables/frequency'
import { HOLDING } from '@/lib/domain/water/tables/holding'
import { DETECTION_CONDITIONS, LIMIT_TYPES, QUALIFIERS } from '@/lib/domain/water/tables/qualifiers'
import frequency from '../data/water/frequency.json'
import holding from '../data/water/holding.json'
import qualifiers from '../data/water/qualifiers.json'

const IDS: Record<string, string> = {
  'Total coliform / E. coli': 'total-coliform',
  'Total coliform': 'total-coliform',
  'Nitrate + nitrite': 'nitrate-nitrite',
  'Chromium (total)': 'chromium',
  'Chromium(VI)': 'chromium-vi',
  'Sulfide (H2S)': 'hydrogen-sulfide',
  'Radon-222': 'radon',
  'VOCs (benzene, MTBE, TCE, ...)': 'benzene',
  PFAS: 'pfoa',
}
const idOf = (name: string): string => IDS[name] ?? name.toLowerCase().replace(/ /g, '-')

/** Rows that a private drinking-water well does not use: wastewater scopes, and chlorine residual, which is no lab test here. */
const LEFT_OUT = (row: { scope: string; analyte: string }): boolean =>
  /non-potable \/|wastewater/.test(row.scope) ||
  row.analyte === 'Chlorine residual' ||
  row.scope.includes('EPA 533')

describe('holding times', () => {
  test.each(
    holding
      .filter((row) => !LEFT_OUT(row))
      .map((row) => [`${row.analyte}, ${row.scope}: ${row.holdText} (${row.source})`, row] as const),
  )('%s', (_, row) => {
    const chlorinated = row.scope.endsWith(', chlorinated')
    const ours = HOLDING.find(
      (each) => each.analytes.includes(idOf(row.analyte)) && Boolean(each.chlorinated) === chlorinated,
    )
    expect(ours?.holdHours).toBe(row.holdHours)
    // "Cool 4 °C" of the older texts is "at most 6 °C" in the present one.
    const temp = row.tempMaxC === 4 ? 6 : row.tempMaxC
    expect(ours?.maxTempC).toBe(temp)
  })

  test('holds no analyte twice for the same water', () => {
    const plain = HOLDING.filter((row) => !row.chlorinated).flatMap((row) => row.analytes)
    expect(new Set(plain).size).toBe(plain.length)
  })
})

describe('frequencies', () => {
  const GROUPS: Record<string, string> = {
    'total coliform': 'bacteria',
    'E. coli': 'bacteria',
    bacteria: 'bacteria',
    'coliform bacteria': 'bacteria',
    nitrate: 'nitrate',
    'nitrate (and bacteria)': 'nitrate',
    TDS: 'general',
    pH: 'general',
    'general water quality': 'general',
    arsenic: 'metals',
    VOCs: 'radio-and-organics',
    'sanitary inspection': 'sanitary-inspection',
  }
  const rows = frequency
    .filter((row) => row.body !== 'eXtension-type advice page')
    .flatMap((row) =>
      row.tests.map((name) => ({ body: row.body, months: row.months, group: GROUPS[name], name })),
    )
    .filter((row) => row.group !== undefined && !(row.body === 'WHO' && row.name === 'E. coli'))
  test.each(rows.map((row) => [`${row.body}: ${row.name} every ${row.months} months`, row] as const))(
    '%s',
    (_, row) => {
      expect(
        FREQUENCIES.some(
          (each) => each.body === row.body && each.group === row.group && each.months === row.months,
        ),
      ).toBe(true)
    },
  )
})

describe('EPA WQX qualifiers, conditions and limit types', () => {
  test('every code of the list is known, non-detects and over-detects as EPA classes them', () => {
    const classes: Record<string, string> = { 'Non-Detect': 'non-detect', 'Over-Detect': 'over-detect' }
    for (const row of qualifiers.measureQualifiers) {
      const ours = QUALIFIERS.find((each) => each.code === row.code)
      expect(ours, row.code).toBeDefined()
      const expected = classes[row.tadaFlag]
      if (expected !== undefined) expect(ours?.class, row.code).toBe(expected)
    }
    expect(QUALIFIERS).toHaveLength(qualifiers.measureQualifiers.length)
  })

  test('every detection condition and limit type has the class EPA gives it', () => {
    const word = (type: string): string => type.toLowerCase()
    for (const row of qualifiers.detectionConditions)
      expect(DETECTION_CONDITIONS[row.condition]).toBe(word(row.type))
    for (const row of qualifiers.limitTypes) expect(LIMIT_TYPES[row.limitType]).toBe(word(row.type))
    expect(Object.keys(DETECTION_CONDITIONS)).toHaveLength(qualifiers.detectionConditions.length)
    expect(Object.keys(LIMIT_TYPES)).toHaveLength(qualifiers.limitTypes.length)
  })

  test.each(['E', 'L', 'B', 'V', 'T', 'K'])(
    'the letter %s, with two published meanings, is told as a conflict',
    (code) => {
      expect(readQualifiers(code, null)[0]?.conflict).toContain('more than one published meaning')
    },
  )

  test.each(['E', 'L', 'T', 'K'])('the letter %s is not classed until the laboratory says', (code) => {
    expect(readQualifiers(code, null)[0]?.class).toBe('unknown')
    expect(readQualifiers(code, { [code]: 'pass' })[0]).toMatchObject({ class: 'pass', conflict: null })
  })
})
