import { describe, expect, test } from 'vitest'
import {
  type Dimension,
  formatNumberPlain,
  type NumberLocale,
  parseQuantity,
  type QuantityProblemCode,
  type UnitId,
} from '@/lib/domain/quantity'

type Field = { dimension: Dimension; unit: UnitId | null; locale: NumberLocale }
const LENGTH_FT: Field = { dimension: 'length', unit: 'ft', locale: 'en' }
const LENGTH_M: Field = { dimension: 'length', unit: 'm', locale: 'en' }
const FLOW: Field = { dimension: 'flow', unit: 'gal/min', locale: 'en' }
const VOLUME: Field = { dimension: 'volume', unit: 'gal', locale: 'en' }
const HOURS: Field = { dimension: 'duration', unit: 'h', locale: 'en' }
const WARMTH: Field = { dimension: 'temperature', unit: 'degC', locale: 'en' }
const comma = (field: Field): Field => ({ ...field, locale: 'comma' })
const unsaid = (field: Field): Field => ({ ...field, locale: null })

const INCH = 0.0254
const FOOT = 0.3048
const GALLON = 0.003785411784

describe('parseQuantity reads', () => {
  test.each<[string, Field, si: number, unit: UnitId]>([
    ['9 gpm', FLOW, (9 * GALLON) / 60, 'gal/min'],
    ['9gpm', FLOW, (9 * GALLON) / 60, 'gal/min'],
    ['9', FLOW, (9 * GALLON) / 60, 'gal/min'],
    ['9 gallons per minute', FLOW, (9 * GALLON) / 60, 'gal/min'],
    ['34 l/min', FLOW, 0.034 / 60, 'L/min'],
    ['2.5 m3/h', FLOW, 2.5 / 3600, 'm3/h'],
    ['2.5 m³/h', FLOW, 2.5 / 3600, 'm3/h'],
    ['350 gal/day', FLOW, (350 * GALLON) / 86400, 'gal/d'],
    ['1/2 gpm', FLOW, (0.5 * GALLON) / 60, 'gal/min'],
    ['2\' 4"', LENGTH_FT, 28 * INCH, 'ft'],
    ['2′ 4″', LENGTH_M, 28 * INCH, 'ft'],
    ['2’4”', LENGTH_M, 28 * INCH, 'ft'],
    ["2' 4''", LENGTH_M, 28 * INCH, 'ft'],
    ['2 ft 4 in', LENGTH_M, 28 * INCH, 'ft'],
    ['2ft4in', LENGTH_M, 28 * INCH, 'ft'],
    ['2 feet, 4 inches', LENGTH_M, 28 * INCH, 'ft'],
    ['2 ft. and 4 in.', LENGTH_M, 28 * INCH, 'ft'],
    ['5\' 6 1/2"', LENGTH_FT, 66.5 * INCH, 'ft'],
    ['5\'-6 1/2"', LENGTH_FT, 66.5 * INCH, 'ft'],
    ['5\' - 6-1/2"', LENGTH_FT, 66.5 * INCH, 'ft'],
    ['5\' 6½"', LENGTH_FT, 66.5 * INCH, 'ft'],
    ["5'6", LENGTH_FT, 66 * INCH, 'ft'],
    ["12'", LENGTH_M, 12 * FOOT, 'ft'],
    ['1/2 in', LENGTH_FT, 0.5 * INCH, 'in'],
    ['½ in', LENGTH_FT, 0.5 * INCH, 'in'],
    ['3⁄8"', LENGTH_FT, 0.375 * INCH, 'in'],
    ['6-1/4"', LENGTH_FT, 6.25 * INCH, 'in'],
    ['1 m 20 cm', LENGTH_FT, 1.2, 'm'],
    ['.5 m', LENGTH_FT, 0.5, 'm'],
    ['5. m', LENGTH_FT, 5, 'm'],
    ['+3 m', LENGTH_FT, 3, 'm'],
    ['3.10', LENGTH_M, 3.1, 'm'],
    ['1,200 gal', VOLUME, 1200 * GALLON, 'gal'],
    ['1,234,567 gal', VOLUME, 1234567 * GALLON, 'gal'],
    ['1,200.5 gal', VOLUME, 1200.5 * GALLON, 'gal'],
    ['1 200 gal', VOLUME, 1200 * GALLON, 'gal'],
    ['1\u00a0200\u00a0gal', VOLUME, 1200 * GALLON, 'gal'],
    ['1\u2009200\u202fgal', VOLUME, 1200 * GALLON, 'gal'],
    ['1 200.5', VOLUME, 1200.5 * GALLON, 'gal'],
    ['300 imp gal', VOLUME, 300 * 0.00454609, 'impgal'],
    ['3 m3', VOLUME, 3, 'm3'],
    ['35 ft3', VOLUME, 35 * FOOT ** 3, 'ft3'],
    ['35 ft^3', VOLUME, 35 * FOOT ** 3, 'ft3'],
    ['1e3 L', VOLUME, 1, 'L'],
    ['12,5 L', comma(VOLUME), 0.0125, 'L'],
    ['1.200 L', comma(VOLUME), 1.2, 'L'],
    ['1.200,5 L', comma(VOLUME), 1.2005, 'L'],
    ['1 200,5 L', comma(VOLUME), 1.2005, 'L'],
    ['0,5 L', comma(VOLUME), 0.0005, 'L'],
    ['12.5 L', unsaid(VOLUME), 0.0125, 'L'],
    ['1200 L', unsaid(VOLUME), 1.2, 'L'],
    ['0.125 L', unsaid(VOLUME), 0.000125, 'L'],
    ['1,200.5 L', unsaid(VOLUME), 1.2005, 'L'],
    ['1.200,5 L', unsaid(VOLUME), 1.2005, 'L'],
    ['1,200,000 L', unsaid(VOLUME), 1200, 'L'],
    ['1.200 L', VOLUME, 0.0012, 'L'],
    ['7h30', HOURS, 27000, 'h'],
    ['7h5', HOURS, 25500, 'h'],
    ['7h3', HOURS, 25380, 'h'],
    ['7 h 30 min', HOURS, 27000, 'h'],
    ['1h 30m', HOURS, 5400, 'h'],
    ['1:30', HOURS, 5400, 'h'],
    ['1:30:30', HOURS, 5430, 'h'],
    ['30 min', HOURS, 1800, 'min'],
    ['2 d 4 h', HOURS, 187200, 'd'],
    ['7.5 hrs', HOURS, 27000, 'h'],
    ['1 min 30 s', HOURS, 90, 'min'],
    ['68 °F', WARMTH, 293.15, 'degF'],
    ['-5', WARMTH, 268.15, 'degC'],
    ['−5 °C', WARMTH, 268.15, 'degC'],
    ['–5 °C', WARMTH, 268.15, 'degC'],
    ['0', WARMTH, 273.15, 'degC'],
    ['45 psi', { dimension: 'pressure', unit: null, locale: 'en' }, 45 * 6894.757293168, 'psi'],
    ['20 ft of head', { dimension: 'pressure', unit: 'psi', locale: 'en' }, 20 * 2989.06692, 'ftH2O'],
    ['3 mH2O', { dimension: 'pressure', unit: 'psi', locale: 'en' }, 3 * 9806.65, 'mH2O'],
    ['850 mA', { dimension: 'current', unit: 'A', locale: 'en' }, 0.85, 'mA'],
    ['3/4 hp', { dimension: 'power', unit: 'W', locale: 'en' }, 0.75 * 745.6998715823, 'hp'],
    [
      '0.6 gpm/ft',
      { dimension: 'capacity', unit: null, locale: 'en' },
      (0.6 * GALLON) / 60 / FOOT,
      'gal/min/ft',
    ],
    ['35 %', { dimension: 'ratio', unit: '1', locale: 'en' }, 0.35, '%'],
    ['0.35', { dimension: 'ratio', unit: '1', locale: 'en' }, 0.35, '1'],
    ['0', LENGTH_M, 0, 'm'],
    ['-0', LENGTH_M, 0, 'm'],
  ])('%s', (text, field, si, unit) => {
    const reading = parseQuantity(text, field)
    if (reading.kind !== 'value') expect.fail(JSON.stringify(reading))
    expect(reading.quantity.unit).toBe(unit)
    expect(Math.abs(reading.quantity.si - si)).toBeLessThanOrEqual(1e-12 * Math.max(1e-6, Math.abs(si)))
    expect(Object.is(reading.quantity.si, -0)).toBe(false)
    expect(reading.quantity.typed).toBe(text)
  })

  test.each([
    '',
    ' ',
    '\u00a0',
    '-',
    '–',
    '—',
    '?',
    'n/a',
    'N/A',
    'na',
    'unknown',
    'Unknown ',
    'not measured',
  ])('"%s" as blank, never as zero', (text) => {
    expect(parseQuantity(text, LENGTH_M)).toEqual({ kind: 'blank' })
  })

  test('says whether the unit was typed or assumed, and keeps the text as typed, trimmed', () => {
    expect(parseQuantity('  3.10 ', LENGTH_M)).toEqual({
      kind: 'value',
      quantity: { si: 3.1, typed: '3.10', unit: 'm' },
      assumedUnit: true,
    })
    expect(parseQuantity(' 3.10  M ', LENGTH_M)).toEqual({
      kind: 'value',
      quantity: { si: 3.1, typed: '3.10  M', unit: 'm' },
      assumedUnit: false,
    })
  })
})

const FORBIDDEN_WORDS = /\b(please|sorry|valid|invalid|oops|forbidden)\b/i

describe('parseQuantity refuses', () => {
  test.each<[string, Field & { min?: number; max?: number }, QuantityProblemCode, says: string]>([
    ['about 3', LENGTH_M, 'not-a-number', 'about 3'],
    ['three', LENGTH_M, 'not-a-number', 'three'],
    ['1.2.3', LENGTH_M, 'not-a-number', '1.2.3'],
    ['1,20.5', LENGTH_M, 'not-a-number', '1,20.5'],
    ['0/0 in', LENGTH_M, 'not-a-number', '0/0'],
    ['1/0 in', LENGTH_M, 'not-a-number', '1/0'],
    ['--3', LENGTH_M, 'not-a-number', '--3'],
    ['2 gal 3 L', VOLUME, 'not-a-number', '2 gal 3 L'],
    ['3 in 2 ft', LENGTH_M, 'not-a-number', '3 in 2 ft'],
    ['2 ft 14 in', LENGTH_M, 'not-a-number', 'less than 1 ft in in'],
    ['2.5 ft 3 in', LENGTH_M, 'not-a-number', 'whole number of ft'],
    ['2 ft 3', LENGTH_M, 'not-a-number', '2 ft 3'],
    ['3 4', LENGTH_M, 'not-a-number', '3 4'],
    ['Infinity', LENGTH_M, 'not-a-number', 'Infinity'],
    ['1e999', LENGTH_M, 'not-a-number', '1e999'],
    ['12,5', LENGTH_M, 'which-comma', '12,5'],
    ['12,5', unsaid(LENGTH_M), 'which-comma', '12,5'],
    ['1,200', unsaid(VOLUME), 'which-comma', '1,200'],
    ['1.200', unsaid(VOLUME), 'which-comma', '1.200'],
    ['0,125', LENGTH_M, 'which-comma', '0,125'],
    ['1.200,5', VOLUME, 'which-comma', '1.200,5'],
    ['1 200,5', VOLUME, 'which-comma', '1 200,5'],
    ['1,200.5', comma(VOLUME), 'which-comma', '1,200.5'],
    ['12.5', comma(VOLUME), 'which-comma', '12.5'],
    ['9', { ...FLOW, unit: null }, 'unit-missing', 'add one, such as'],
    ['9 cubits', LENGTH_M, 'unit-unknown', '"cubits"'],
    ['12 ft below cap', LENGTH_M, 'unit-unknown', '"below cap"'],
    ['12 ft?', LENGTH_M, 'unit-unknown', '"ft?"'],
    ['3-5 ft', LENGTH_M, 'unit-unknown', '"-"'],
    ['<3 ft', LENGTH_M, 'not-a-number', '<3 ft'],
    ['1:75', HOURS, 'unit-unknown', '":"'],
    ['12 gal', LENGTH_M, 'wrong-dimension', 'a volume, and this is a length'],
    ['12 ft', { dimension: 'pressure', unit: 'psi', locale: 'en' }, 'wrong-dimension', 'a length'],
    ['12 gal', FLOW, 'wrong-dimension', 'a volume, and this is a flow'],
    ['30 m', HOURS, 'wrong-dimension', 'a length, and this is a time span'],
    ['12 ft', { ...LENGTH_FT, max: 3 }, 'out-of-range', 'give 9.842 ft or less'],
    ['1 ft', { ...LENGTH_FT, min: 0.6096 }, 'out-of-range', '2 ft or more'],
    ['-3 m', { ...LENGTH_M, min: -2 }, 'out-of-range', 'give -2 m or more'],
    ['-3', LENGTH_M, 'negative', '0 m or more'],
    ['-2\' 4"', LENGTH_FT, 'negative', '0 ft or more'],
    ['-300 °C', WARMTH, 'out-of-range', '-273.1 °C or more'],
    ['9 in', { ...LENGTH_FT, min: 0.3 }, 'out-of-range', 'give 11.82 in or more'],
    ['0.1 m', { ...LENGTH_M, min: 0.25 }, 'out-of-range', 'give 0.25 m or more'],
    ['20000 ft', { ...LENGTH_M, max: 3048 }, 'out-of-range', 'give 10000 ft or less'],
  ])('%s', (text, field, code, says) => {
    const reading = parseQuantity(text, field)
    expect(reading).toMatchObject({ kind: 'problem', code })
    if (reading.kind !== 'problem') return
    expect(reading.message).toContain(says)
    expect(reading.message).not.toMatch(FORBIDDEN_WORDS)
  })

  test('prose is refused quickly and quoted in part', () => {
    const reading = parseQuantity(`12 ft ${'and more '.repeat(100_000)}`, LENGTH_FT)
    expect(reading).toMatchObject({ kind: 'problem', code: 'not-a-number' })
    if (reading.kind === 'problem') expect(reading.message.length).toBeLessThan(150)
  })

  test('takes both ends of its range', () => {
    const field = { ...LENGTH_M, min: 1, max: 2 }
    expect(parseQuantity('1', field).kind).toBe('value')
    expect(parseQuantity('2', field).kind).toBe('value')
    expect(parseQuantity('-1.5', { ...LENGTH_M, min: -2 })).toMatchObject({ quantity: { si: -1.5 } })
    expect(parseQuantity('-2 ft 6 in', { ...LENGTH_M, min: -2 })).toMatchObject({ quantity: { si: -0.762 } })
  })

  test('a default unit of another dimension is a fault of the caller', () => {
    expect(() => parseQuantity('3', { dimension: 'flow', unit: 'ft', locale: 'en' })).toThrow(RangeError)
  })
})

describe('formatNumberPlain', () => {
  test.each<[number, UnitId, string]>([
    [12.4 * FOOT, 'ft', '12.4'],
    [0.1 + 0.2, 'm', '0.3'],
    [GALLON * 1200, 'gal', '1200'],
    [293.15, 'degC', '20'],
    [273.16, 'degC', '0.01'],
    [273.1501, 'degC', '0.0001'],
    [293.15, 'degF', '68'],
    [1e-7, 'm', '0.0000001'],
    [-1.25e-9, 'm', '-0.00000000125'],
    [2.5e21, 'm', '2500000000000000000000'],
    [0, 'ft', '0'],
    [-0, 'ft', '0'],
  ])('%d SI in %s is "%s"', (si, unit, text) => {
    expect(formatNumberPlain(si, unit)).toBe(text)
  })

  test('throws on what is not a number', () => {
    expect(() => formatNumberPlain(Number.NaN, 'm')).toThrow(RangeError)
  })
})
