import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  defaultUnitFor,
  dimensionOf,
  formatNumberPlain,
  formatQuantity,
  fromSi,
  type NumberLocale,
  parseQuantity,
  toSi,
  type UnitId,
  type UnitSystem,
  type Use,
  unitSymbol,
} from '@/lib/domain/quantity'

const USES: Use[] = [
  'depth',
  'drawdown',
  'lift',
  'bore',
  'brush',
  'distance',
  'route',
  'altitude',
  'area',
  'flow',
  'demand',
  'capacity',
  'volume',
  'tank',
  'pressure',
  'head',
  'hours',
  'minutes',
  'days',
  'temperature',
  'current',
  'voltage',
  'power',
  'share',
]
const UNITS: UnitId[] = [
  'm',
  'ft',
  'in',
  'mm',
  'gal',
  'L',
  'm3',
  'gal/min',
  'L/d',
  'psi',
  'kPa',
  'h',
  'min',
  'mA',
  'hp',
  '%',
]
const anyUse = fc.constantFrom(...USES)
const anySystem = fc.constantFrom<UnitSystem>('us', 'metric')
const anyUnit = fc.constantFrom(...UNITS)
const anyLocale = fc.constantFrom<NumberLocale>('en', 'comma', null)
/** Up to nine figures, as typed: 0.07, 12.4, 1234567.89. */
const typedNumber = fc
  .tuple(fc.integer({ min: 0, max: 999_999_999 }), fc.integer({ min: 0, max: 4 }))
  .map(([digits, decimals]) => (digits / 10 ** decimals).toFixed(decimals))

function readValue(text: string, unit: UnitId, locale: NumberLocale, min = 0) {
  const reading = parseQuantity(text, { dimension: dimensionOf(unit), unit, locale, min })
  if (reading.kind !== 'value') throw new Error(`"${text}": ${JSON.stringify(reading)}`)
  return reading.quantity
}

test('a shown quantity reads back as the same value within the precision shown, with its unit', () => {
  const si = fc.double({ min: 0, max: 1e5, noNaN: true })
  fc.assert(
    fc.property(anyUse, anySystem, si, (use, system, value) => {
      const unit = defaultUnitFor(use, system)
      const text = formatQuantity(value, use, system)
      const read = readValue(text, unit, 'en', -1e9)
      const decimals = /\.(\d+)/.exec(text)?.[1]?.length ?? 0
      const shown = fromSi(value, unit)
      expect(read.unit).toBe(unit)
      expect(Math.abs(fromSi(read.si, unit) - shown)).toBeLessThanOrEqual(0.5 * 10 ** -decimals * (1 + 1e-9))
    }),
    { numRuns: 2000 },
  )
})

test('what was typed is never lost, and its number comes back from SI digit for digit', () => {
  fc.assert(
    fc.property(typedNumber, anyUnit, (number, unit) => {
      const text = `${number} ${unitSymbol(unit)}`
      const quantity = readValue(text, unit, 'en')
      expect(quantity.typed).toBe(text)
      expect(formatNumberPlain(quantity.si, quantity.unit)).toBe(String(Number(number)))
    }),
  )
})

test('plain text of any SI value reads back to 11 figures, in any unit', () => {
  fc.assert(
    fc.property(anyUnit, fc.double({ min: 1e-9, max: 1e9, noNaN: true }), (unit, si) => {
      const read = readValue(formatNumberPlain(si, unit), unit, 'en')
      expect(Math.abs(read.si - si)).toBeLessThanOrEqual(1e-11 * si)
    }),
  )
})

test('a number is read as meant in its locale, and with no locale said it is read as meant or asked about', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 9_999_999 }),
      fc.integer({ min: 0, max: 3 }),
      (digits, decimals) => {
        const value = digits / 10 ** decimals
        const english = value.toLocaleString('en-US', {
          minimumFractionDigits: decimals,
          maximumFractionDigits: decimals,
        })
        const continental = english.replace(/[.,]/g, (mark) => (mark === ',' ? '.' : ','))
        const read = (text: string, locale: NumberLocale) =>
          parseQuantity(text, { dimension: 'length', unit: 'm', locale })
        expect(read(english, 'en')).toMatchObject({ kind: 'value', quantity: { si: value } })
        expect(read(continental, 'comma')).toMatchObject({ kind: 'value', quantity: { si: value } })
        for (const reading of [read(english, null), read(continental, null)]) {
          if (reading.kind === 'value') expect(reading.quantity.si).toBe(value)
          else expect(reading).toMatchObject({ kind: 'problem', code: 'which-comma' })
        }
      },
    ),
    { numRuns: 2000 },
  )
})

test('any text at all gives an answer, and a value only with a finite number', () => {
  const alphabet = fc.constantFrom(...'0123456789.,-/\' "ftingalmhH2O:½′″\u00a0%°CFe+')
  fc.assert(
    fc.property(fc.array(alphabet, { maxLength: 12 }), anyUnit, anyLocale, (letters, unit, locale) => {
      const text = letters.join('')
      const reading = parseQuantity(text, { dimension: dimensionOf(unit), unit, locale })
      if (reading.kind !== 'value') return
      expect(Number.isFinite(reading.quantity.si)).toBe(true)
      expect(reading.quantity.typed).toBe(text.trim())
      expect(/\d|½/.test(text)).toBe(true)
    }),
    { numRuns: 3000 },
  )
})

test('feet and inches are read as the sum of both', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 300 }), fc.integer({ min: 0, max: 95 }), (feet, eighths) => {
      const inches = `${Math.floor(eighths / 8)} ${eighths % 8}/8`
      const read = readValue(`${feet}' ${inches}"`, 'ft', 'en')
      expect(read.si).toBeCloseTo(toSi(feet, 'ft') + toSi(eighths / 8, 'in'), 12)
    }),
  )
})
