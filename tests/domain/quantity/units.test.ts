import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  type Dimension,
  dimensionOf,
  findUnit,
  fromSi,
  isUnitId,
  toSi,
  type UnitId,
  unitSymbol,
  unitsOf,
} from '@/lib/domain/quantity/units'

const DIMENSIONS: Dimension[] = [
  'length',
  'area',
  'volume',
  'flow',
  'capacity',
  'pressure',
  'duration',
  'temperature',
  'current',
  'voltage',
  'power',
  'ratio',
]
const ALL_UNITS = DIMENSIONS.flatMap(unitsOf)
const anyUnit = fc.constantFrom(...ALL_UNITS)

describe('the table', () => {
  test('every unit belongs to one dimension and is found again by its id and its symbol', () => {
    expect(new Set(ALL_UNITS).size).toBe(ALL_UNITS.length)
    for (const unit of ALL_UNITS) {
      expect(findUnit(unit, dimensionOf(unit))).toBe(unit)
      if (unitSymbol(unit) !== '') expect(findUnit(unitSymbol(unit), dimensionOf(unit))).toBe(unit)
    }
  })

  test('no two units of one dimension share a symbol', () => {
    for (const dimension of DIMENSIONS) {
      const symbols = unitsOf(dimension).map(unitSymbol)
      expect(new Set(symbols).size).toBe(symbols.length)
    }
  })

  test('isUnitId takes ids only, not names or inherited properties', () => {
    expect(isUnitId('gal/min')).toBe(true)
    for (const text of ['gpm', 'toString', '', '__proto__']) expect(isUnitId(text)).toBe(false)
  })
})

describe('toSi and fromSi', () => {
  test('undo each other to 12 figures for any unit and value', () => {
    const value = fc
      .double({ min: -1e9, max: 1e9, noNaN: true })
      .filter((x) => x === 0 || Math.abs(x) > 1e-200)
    fc.assert(
      fc.property(anyUnit, value, (unit, x) => {
        const slack = 1e-12 * Math.max(Math.abs(x), dimensionOf(unit) === 'temperature' ? 1000 : 0)
        expect(Math.abs(fromSi(toSi(x, unit), unit) - x)).toBeLessThanOrEqual(slack)
      }),
    )
  })

  test('keep order: more of a unit is more in SI', () => {
    const value = fc.integer({ min: -1_000_000, max: 1_000_000 })
    fc.assert(
      fc.property(anyUnit, value, value, (unit, a, b) => {
        expect(Math.sign(toSi(a, unit) - toSi(b, unit))).toBe(Math.sign(a - b))
      }),
    )
  })

  test('a flow is its volume over its time, a capacity its flow over its length', () => {
    expect(toSi(1, 'gal/d')).toBeCloseTo(toSi(1, 'gal') / toSi(1, 'd'), 20)
    expect(toSi(1, 'L/min')).toBeCloseTo(toSi(1, 'L') / toSi(1, 'min'), 20)
    expect(toSi(1, 'm3/h')).toBeCloseTo(toSi(1, 'm3') / toSi(1, 'h'), 20)
    expect(toSi(1, 'm3/d')).toBeCloseTo(toSi(1, 'm3') / toSi(1, 'd'), 20)
    expect(toSi(1, 'impgal/min')).toBeCloseTo(toSi(1, 'impgal') / toSi(1, 'min'), 20)
    expect(toSi(1, 'gal/min/ft')).toBeCloseTo(toSi(1, 'gal/min') / toSi(1, 'ft'), 20)
    expect(toSi(1, 'L/min/m')).toBeCloseTo(toSi(1, 'L/min') / toSi(1, 'm'), 20)
  })
})

describe('findUnit', () => {
  test.each<[string, Dimension, UnitId]>([
    ['feet', 'length', 'ft'],
    ['Ft.', 'length', 'ft'],
    ["'", 'length', 'ft'],
    ['′', 'length', 'ft'],
    ['"', 'length', 'in'],
    ['″', 'length', 'in'],
    ["''", 'length', 'in'],
    ['Inches', 'length', 'in'],
    ['METRES', 'length', 'm'],
    ['sq ft', 'area', 'ft2'],
    ['ft²', 'area', 'ft2'],
    ['m³', 'volume', 'm3'],
    ['m^3', 'volume', 'm3'],
    ['cu. ft.', 'volume', 'ft3'],
    ['ft3', 'volume', 'ft3'],
    ['US gal', 'volume', 'gal'],
    ['gallons', 'volume', 'gal'],
    ['imp. gal.', 'volume', 'impgal'],
    ['Imperial gallons', 'volume', 'impgal'],
    ['ml', 'volume', 'mL'],
    ['gpm', 'flow', 'gal/min'],
    ['GPM', 'flow', 'gal/min'],
    ['gal/min', 'flow', 'gal/min'],
    ['gal / min', 'flow', 'gal/min'],
    ['gallons per minute', 'flow', 'gal/min'],
    ['gallons a day', 'flow', 'gal/d'],
    ['gpd', 'flow', 'gal/d'],
    ['gph', 'flow', 'gal/h'],
    ['l/min', 'flow', 'L/min'],
    ['lpm', 'flow', 'L/min'],
    ['litres per day', 'flow', 'L/d'],
    ['L/hr', 'flow', 'L/h'],
    ['m³/h', 'flow', 'm3/h'],
    ['cubic metres per hour', 'flow', 'm3/h'],
    ['imp gal per minute', 'flow', 'impgal/min'],
    ['igpm', 'flow', 'impgal/min'],
    ['cfs', 'flow', 'ft3/s'],
    ['gpm/ft', 'capacity', 'gal/min/ft'],
    ['gpm per foot', 'capacity', 'gal/min/ft'],
    ['gal/min per ft', 'capacity', 'gal/min/ft'],
    ['litres per minute per metre', 'capacity', 'L/min/m'],
    ['L/s/m', 'capacity', 'L/s/m'],
    ['PSI', 'pressure', 'psi'],
    ['lbs/in²', 'pressure', 'psi'],
    ['kpa', 'pressure', 'kPa'],
    ['ft of head', 'pressure', 'ftH2O'],
    ['m H₂O', 'pressure', 'mH2O'],
    ['in Hg', 'pressure', 'inHg'],
    ['hrs', 'duration', 'h'],
    ['Mins.', 'duration', 'min'],
    ['days', 'duration', 'd'],
    ['C', 'temperature', 'degC'],
    ['º F', 'temperature', 'degF'],
    ['deg F', 'temperature', 'degF'],
    ['mA', 'current', 'mA'],
    ['A', 'current', 'A'],
    ['amps', 'current', 'A'],
    ['HP', 'power', 'hp'],
    ['per cent', 'ratio', '%'],
  ])('reads "%s" as a %s in %s', (text, dimension, unit) => {
    expect(findUnit(text, dimension)).toBe(unit)
  })

  test.each<[string, Dimension]>([
    ['gal', 'length'],
    ['m', 'duration'],
    ['ft', 'pressure'],
    ['gal', 'flow'],
    ['furlong', 'length'],
    ['', 'length'],
    ['/min', 'flow'],
    ['gal/', 'flow'],
    ['gal/fortnight', 'flow'],
    ['min/gal', 'flow'],
    ['A', 'flow'],
  ])('does not take "%s" for a %s', (text, dimension) => {
    expect(findUnit(text, dimension)).toBeNull()
  })

  test('without a dimension finds a unit of any', () => {
    expect(findUnit('litres per day', null)).toBe('L/d')
    expect(findUnit('psi', null)).toBe('psi')
    expect(findUnit('gpm/ft', null)).toBe('gal/min/ft')
    expect(findUnit('cubits', null)).toBeNull()
  })
})
