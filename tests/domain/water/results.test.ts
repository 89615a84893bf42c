import { describe, expect, test } from 'vitest'
import { ANALYTES, isAside, matchAnalyte } from '@/lib/domain/water/analytes'
import { answerQuestion } from '@/lib/domain/water/result-questions'
import { type ReadOptions, readResult } from '@/lib/domain/water/results'

const read = (line: string, options: Partial<ReadOptions> = {}) => {
  const [analyte = '', result = '', unit = '', reportingLimit = '', qualifier = ''] = line
    .split('|')
    .map((cell) => cell.trim())
  return readResult(
    { analyte, result, unit, reportingLimit, qualifier, method: '' },
    { locale: 'en', ...options },
  )
}
const ok = (line: string, options: Partial<ReadOptions> = {}) => {
  const reading = read(line, options)
  if (reading.kind !== 'result') throw new Error(`${line}: ${JSON.stringify(reading)}`)
  return reading.result
}

/** line, analyte, operator, value in the home unit, reporting limit in the home unit. */
const READ: readonly (readonly [string, string, string, number | null, number | null])[] = [
  ['Total coliform | <1 | MPN/100 mL', 'total-coliform', '<', 1, null],
  ['Total Coliforms | < 1 | CFU/100mL', 'total-coliform', '<', 1, null],
  ['E. coli | ND', 'e-coli', 'not-detected', null, null],
  ['E.coli | Absent', 'e-coli', 'absent', null, null],
  ['Escherichia coli | ABSENT | per 100 mL', 'e-coli', 'absent', null, null],
  ['Total coliform | Present', 'total-coliform', 'present', null, null],
  ['Total coliform | P | P/A', 'total-coliform', 'present', null, null],
  ['Total coliform | A | P/A', 'total-coliform', 'absent', null, null],
  ['Total coliform | Negative', 'total-coliform', 'absent', null, null],
  ['Total coliform | Positive', 'total-coliform', 'present', null, null],
  ['Total coliform | >2419.6 | MPN/100 mL', 'total-coliform', '>', 2419.6, null],
  ['Total coliform | > 2,419.6 | MPN/100 mL', 'total-coliform', '>', 2419.6, null],
  ['Total coliform | >200.5 | MPN/100 mL', 'total-coliform', '>', 200.5, null],
  ['Total coliform | TNTC | CFU/100 mL', 'total-coliform', 'present', null, null],
  ['Total coliform | Confluent growth', 'total-coliform', 'present', null, null],
  ['Total coliform | <1 (absent) | MPN/100 mL', 'total-coliform', '<', 1, null],
  ['Total coliform | 5 CFU/100 mL', 'total-coliform', '=', 5, null],
  ['Total coliform | 3/100 mL', 'total-coliform', '=', 3, null],
  ['Total coliform | 0 | CFU/100 mL', 'total-coliform', '=', 0, null],
  ['Heterotrophic plate count | 120 | CFU/mL', 'heterotrophic-plate-count', '=', 120, null],
  ['Nitrate-N | < 0.05 U | mg/L', 'nitrate', '<', 0.05, null],
  ['Nitrate as N | 0.05 U | mg/L', 'nitrate', '<', 0.05, null],
  ['Nitrate as N | 0.05U | mg/L', 'nitrate', '<', 0.05, null],
  ['NO3-N | 0.05 J | mg/L', 'nitrate', '=', 0.05, null],
  ['Nitrate | 0.05 | mg/L as N | 0.1 | J', 'nitrate', '=', 0.05, 0.1],
  ['Nitrate | 44.268 | mg/L as NO3', 'nitrate', '=', 10.0002, null],
  ['Nitrate | 45 | mg/l asNO3', 'nitrate', '=', 10.1655, null],
  ['Nitrate (as NO3) | 45 | mg/L', 'nitrate', '=', 10.1655, null],
  ['Nitrate | 10 | mg N/L', 'nitrate', '=', 10, null],
  ['Nitrate Nitrogen | 1,200 | ug/L', 'nitrate', '=', 1.2, null],
  ['Nitrate | ND | mg/L as N | 0.2', 'nitrate', 'not-detected', null, 0.2],
  ['Nitrate | ND (0.2) | mg/L as N', 'nitrate', 'not-detected', null, 0.2],
  ['Nitrite-N | BDL | mg/L | 0.01', 'nitrite', 'not-detected', null, 0.01],
  ['Nitrate + Nitrite as N | 3.10 | mg/L', 'nitrate-nitrite', '=', 3.1, null],
  ['Ammonia | 0.5 | mg/L as NH4', 'ammonia', '=', 0.388239, null],
  ['Lead | 15 | ppb', 'lead', '=', 0.015, null],
  ['Lead | 15 | µg/L', 'lead', '=', 0.015, null],
  ['Lead | 15 | μg/L', 'lead', '=', 0.015, null],
  ['Pb | <1.0 | ug/l', 'lead', '<', 0.001, null],
  ['Lead | 0.0151 | mg/L', 'lead', '=', 0.0151, null],
  ['Lead | 1.5E-2 | mg/L', 'lead', '=', 0.015, null],
  ['Lead | 1.5 x 10^-2 | mg/L', 'lead', '=', 0.015, null],
  ['Arsenic, total | .005 | mg/L', 'arsenic', '=', 0.005, null],
  ['Arsenic | <MDL | ug/L | 0.5', 'arsenic', 'not-detected', null, 0.0005],
  ['Arsenic | trace | ug/L | 2', 'arsenic', 'trace', null, 0.002],
  ['Arsenic | Detected, not quantified | ug/L | 2', 'arsenic', 'trace', null, 0.002],
  ['Arsenic | 3.2 ± 0.4 | ug/L', 'arsenic', '=', 0.0032, null],
  ['Hardness | 20.44 | gpg', 'hardness', '=', 349.89, null],
  ['Total hardness | 12 | grains per gallon', 'hardness', '=', 205.41, null],
  ['Hardness | 10 | °dH', 'hardness', '=', 178.48, null],
  ['Hardness | 12 | °fH', 'hardness', '=', 120, null],
  ['Iron | 0.30 | ppm', 'iron', '=', 0.3, null],
  ['Iron | ≤0.05 | mg/L', 'iron', '<', 0.05, null],
  ['Iron | less than 0.05 | mg/L', 'iron', '<', 0.05, null],
  ['Iron | <0.05 mg/L', 'iron', '<', 0.05, null],
  ['Iron | ~0.3 | mg/L', 'iron', '=', 0.3, null],
  ['Iron | 0.3 B | mg/L', 'iron', '=', 0.3, null],
  ['pH | 7.2', 'ph', '=', 7.2, null],
  ['pH | 7.2 HF | SU', 'ph', '=', 7.2, null],
  ['Turbidity | 0.4 | FNU', 'turbidity', '=', 0.4, null],
  ['Conductivity | 0.55 | mS/cm', 'specific-conductance', '=', 550, null],
  ['Radon | 11 | Bq/L', 'radon', '=', 297.297, null],
  ['PFOA | 0.004 | ug/L', 'pfoa', '=', 4, null],
  ['PFOS | 4 | ppt', 'pfos', '=', 4, null],
  ['Calcium | 250 | mg/L as CaCO3', 'calcium', '=', 100.11, null],
  ['Sulfate | 0 | mg/L | 5', 'sulfate', 'not-detected', null, 5],
  ['Fluoride | N/A | mg/L', 'fluoride', 'none', null, null],
  ['Fluoride | Not analyzed | mg/L', 'fluoride', 'none', null, null],
  ['Chloride | 12.40 * | mg/L', 'chloride', '=', 12.4, null],
  ['TDS | 1 234 | mg/L', 'total-dissolved-solids', '=', 1234, null],
]

describe('results as laboratories write them', () => {
  test('there are at least sixty', () => expect(READ.length).toBeGreaterThanOrEqual(60))
  test.each(READ)('%s', (line, analyte, operator, value, limit) => {
    const got = ok(line)
    expect(got).toMatchObject({ analyte, operator })
    if (value === null) expect(got.value).toBeNull()
    else expect(got.value).toBeCloseTo(value, 2 - Math.floor(Math.log10(Math.max(value, 1e-6))))
    if (limit === null) expect(got.reportingLimit).toBeNull()
    else expect(got.reportingLimit).toBeCloseTo(limit, 9)
  })
  test('what was typed is kept as typed, trailing zeros and all', () => {
    expect(ok('Nitrate + Nitrite as N | 3.10 | mg/L').typed).toMatchObject({ result: '3.10', unit: 'mg/L' })
  })
  test('CFU and MPN are kept apart', () => {
    expect(ok('E. coli | 5 | CFU/100 mL').countUnit).toBe('CFU/100 mL')
    expect(ok('E. coli | 5 | MPN/100 mL').countUnit).toBe('MPN/100 mL')
  })
})

describe('commas follow the sheet, and are asked about where nobody has said', () => {
  test.each([
    ['1,2', 'comma', 1.2],
    ['1.2', 'en', 1.2],
    ['1,234', 'en', 1234],
    ['1.234', 'comma', 1234],
    ['1.234,5', 'comma', 1234.5],
    ['1,234.5', 'en', 1234.5],
    ['1.2', null, 1.2],
    ['<0,05', 'comma', 0.05],
  ] as const)('%s on a sheet with %s reads %d', (text, locale, value) => {
    expect(ok(`Chloride | ${text} | mg/L`, { locale }).value).toBe(value)
  })
  test.each([
    ['1,2', 'en'],
    ['1.2', 'comma'],
    ['1,2', null],
    ['1,234', null],
    ['1.234', null],
    ['1.234,5', 'en'],
  ] as const)('%s on a sheet with %s is asked about', (text, locale) => {
    expect(read(`Chloride | ${text} | mg/L`, { locale })).toMatchObject({
      kind: 'problem',
      column: 'result',
      message: expect.stringContaining('Choose how'),
    })
  })
})

describe('what cannot be read is said, with the column, and never becomes zero', () => {
  test.each([
    ['Nitrate-N | -0.5 | mg/L', 'result'],
    ['Nitrate-N | 3-5 | mg/L', 'result'],
    ['Nitrate-N | 3/4 | mg/L', 'result'],
    ['Nitrate-N | ok | mg/L', 'result'],
    ['Nitrate-N | | mg/L', 'result'],
    ['Nitrate-N | 1.2.3 | mg/L', 'result'],
    ['Nitrate-N | 1.2 bananas | mg/L', 'result'],
    ['Nitrate-N | 1.2 |', 'unit'],
    ['Nitrate-N | 1.2 | furlong', 'unit'],
    ['Nitrate-N | 1.2 | CFU/100 mL', 'unit'],
    ['Nitrate-N | 1.2 | mg/L as NO3', 'unit'],
    ['Nitrate | 1.2 | mg/L as CaCO3', 'unit'],
    ['Lead | 5 | gpg', 'unit'],
    ['Heterotrophic plate count | 120 | CFU', 'unit'],
    ['Nitrate-N | 1.2 | mg/L | low', 'reportingLimit'],
  ] as const)('%s', (line, column) => {
    expect(read(line)).toMatchObject({ kind: 'problem', column })
  })
  test.each(['Coliform', 'Bacteria', 'Nitrogen', 'EC', 'Radium', 'PFAS'])(
    'the name "%s" is asked about',
    (name) => {
      expect(read(`${name} | 5 | mg/L`).kind).toBe('which-analyte')
    },
  )
  test.each(['Unobtainium', 'Total nitrogen', 'Kjeldahl nitrogen', 'Strontium-90', ''])(
    'the name "%s" is unknown, not the nearest guess',
    (name) => {
      expect(read(`${name} | 5 | mg/L`).kind).toBe('unknown-analyte')
    },
  )
})

describe('names on lab sheets', () => {
  test.each([
    ['Total Coliform Bacteria', 'total-coliform', null],
    ['Total Coliform (P/A)', 'total-coliform', null],
    ['Total Coliforms by Colilert', 'total-coliform', null],
    ['Escherichia coli (E. coli)', 'e-coli', null],
    ['E-coli', 'e-coli', null],
    ['Nitrate Nitrogen (NO3-N)', 'nitrate', 'N'],
    ['Nitrogen, Nitrate', 'nitrate', 'N'],
    ['Nitrate (as NO3)', 'nitrate', 'NO3'],
    ['Nitrate+Nitrite-N', 'nitrate-nitrite', 'N'],
    ['Total Arsenic', 'arsenic', null],
    ['Copper, Total', 'copper', null],
    ['Sodium, Total', 'sodium', null],
    ['Total Dissolved Solids (TDS)', 'total-dissolved-solids', null],
    ['Electrical Conductivity', 'specific-conductance', null],
    ['Detergents (MBAS)', 'foaming-agents', null],
    ['Iron Bacteria', 'iron-bacteria', null],
    ['Iron, dissolved', 'iron', null],
    ['Free Chlorine', 'free-chlorine', null],
    ['Tannins & Lignins', 'tannin', null],
    ['Hardness (as CaCO3)', 'hardness', 'CaCO3'],
  ] as const)('%s is %s, form %s', (name, id, form) => {
    expect(matchAnalyte(name)).toEqual({ kind: 'match', id, form })
  })
  test.each([
    'Bicarbonate Alkalinity',
    'Carbonate Alkalinity',
    'Calcium Hardness',
    'Sulfide',
    'Nitrate (NO2)',
  ])('%s is asked about', (name) => expect(matchAnalyte(name).kind).toBe('doubtful'))
  test.each(['Total nitrogen', 'Total carbon', 'Iron fixing moss', 'Leadership'])('%s is not known', (name) =>
    expect(matchAnalyte(name).kind).toBe('unknown'),
  )
  test('every name of every analyte leads to it alone, and none is set aside', () => {
    for (const analyte of ANALYTES)
      for (const name of [analyte.name, ...analyte.synonyms]) {
        const match = matchAnalyte(name)
        expect(match.kind === 'match' ? match.id : match, name).toBe(analyte.id)
        expect(isAside(name), name).toBe(false)
      }
    for (const name of ['Temperature', 'Water temperature', 'Langelier Index'])
      expect(isAside(name)).toBe(true)
  })
})

describe('open questions', () => {
  test('nitrate in plain mg/L: as N or as NO3?', () => {
    const nitrate = ok('Nitrate | 20 | mg/L')
    expect(nitrate.questions.map((each) => each.kind)).toEqual(['form'])
    expect(answerQuestion(nitrate, 'form', 'N')).toMatchObject({
      value: 20,
      formFactors: null,
      questions: [],
    })
    expect(answerQuestion(nitrate, 'form', 'NO3').value).toBeCloseTo(4.518, 3)
    expect(answerQuestion(nitrate, 'form', 'NO7')).toEqual(nitrate)
  })
  test.each([
    ['Lead | 15 | mg/L', 'a thousandth', 0.015],
    ['Arsenic | 8 | mg/L', 'a thousandth', 0.008],
    ['Chloride | 0.03 | mg/L', 'a thousandfold', 30],
    ['Total dissolved solids | 0.35 | mg/L', 'a thousandfold', 350],
    ['Lead | <2 | mg/L', 'a thousandth', 0.002],
  ] as const)('%s is questioned, and %s settles it', (line, answer, value) => {
    const odd = ok(line)
    expect(odd.questions.map((each) => each.kind)).toEqual(['scale'])
    expect(answerQuestion(odd, 'scale', answer)).toMatchObject({ value, questions: [] })
    expect(answerQuestion(odd, 'scale', 'as typed')).toMatchObject({ value: odd.value, questions: [] })
  })
  test.each(['Lead | 15 | ug/L', 'Iron | 12 | mg/L', 'Nitrate-N | 60 | mg/L', 'Arsenic | <0.5 | ug/L'])(
    '%s is not questioned',
    (line) => {
      expect(ok(line).questions).toEqual([])
    },
  )
  test('a bare zero of a substance asks for the reporting limit, and an answer gives it', () => {
    const zero = ok('Nitrate-N | 0 | mg/L')
    expect(zero).toMatchObject({ operator: 'not-detected', value: null, questions: [{ kind: 'zero' }] })
    expect(answerQuestion(zero, 'zero', '0.1')).toMatchObject({ reportingLimit: 0.1, questions: [] })
    expect(answerQuestion(zero, 'zero', '')).toEqual(zero)
  })
  test('a letter with two published meanings is asked about, unless the laboratory has a key', () => {
    const odd = ok('Iron | 0.3 E | mg/L')
    expect(odd.questions.map((each) => each.kind)).toEqual(['qualifier'])
    expect(answerQuestion(odd, 'qualifier', 'above the range')).toMatchObject({
      operator: '>',
      questions: [],
    })
    expect(answerQuestion(odd, 'qualifier', 'estimated')).toMatchObject({ operator: '=', questions: [] })
    expect(ok('Iron | 0.3 E | mg/L', { labKey: { E: 'pass' } }).questions).toEqual([])
  })
  test('a non-detect far from its own reporting limit is asked about', () => {
    expect(ok('Iron | <0.05 | mg/L | 50').questions.map((each) => each.kind)).toEqual(['limit'])
  })
})
