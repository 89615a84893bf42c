import { describe, expect, test } from 'vitest'
import { fromSi, toSi, type UnitId } from '@/lib/domain/quantity'

/**
 * Factors as printed, significand and exponent, in
 * Source  A. Thompson and B. N. Taylor, Guide for the Use of the International System of Units (SI), NIST Special
 *         Publication 811 (2008 edition), Appendix B.8 (by name) and B.9 (by kind of quantity).
 * Read    from transcriptions of the tables, not from the printed page: volume, pressure, power, time and
 *         temperature line by line; gallon per minute and gallon per day, foot, inch, yard, mile, square foot and
 *         cubic foot from quotations of single lines.
 * Exact   true where the table prints the factor in bold, which is to say exact.
 */
const PRINTED: [unit: UnitId, name: string, factor: string, exact: boolean][] = [
  ['ft', 'foot (ft)', '3.048 E-01', true],
  ['in', 'inch (in)', '2.54 E-02', true],
  ['yd', 'yard (yd)', '9.144 E-01', true],
  ['mi', 'mile (mi)', '1.609 344 E+03', true],
  ['ft2', 'square foot (ft2)', '9.290 304 E-02', true],
  ['ft3', 'cubic foot (ft3)', '2.831 685 E-02', false],
  ['L', 'liter (L)', '1.0 E-03', true],
  ['gal', 'gallon (U.S.) (gal)', '3.785 412 E-03', false],
  ['impgal', 'gallon [Canadian and U.K. (Imperial)] (gal)', '4.546 09 E-03', true],
  ['gal/min', 'gallon (U.S.) per minute (gpm) (gal/min)', '6.309 020 E-05', false],
  ['gal/d', 'gallon (U.S.) per day (gal/d)', '4.381 264 E-08', false],
  ['ft3/s', 'cubic foot per second (ft3/s)', '2.831 685 E-02', false],
  ['psi', 'psi (pound-force per square inch) (lbf/in2)', '6.894 757 E+03', false],
  ['bar', 'bar (bar)', '1.0 E+05', true],
  ['ftH2O', 'foot of water, conventional (ftH2O)', '2.989 067 E+03', false],
  ['inHg', 'inch of mercury, conventional (inHg)', '3.386 389 E+03', false],
  ['hp', 'horsepower (550 ft · lbf/s)', '7.456 999 E+02', false],
  ['min', 'minute (min)', '6.0 E+01', true],
  ['h', 'hour (h)', '3.6 E+03', true],
  ['d', 'day (d)', '8.64 E+04', true],
]

const numberIn = (printed: string) => Number(printed.replaceAll(' ', ''))

/** Half a unit in the last printed place. */
function halfLastPlace(printed: string): number {
  const [significand = '', exponent = ''] = printed.replaceAll(' ', '').split('E')
  const decimals = significand.split('.')[1]?.length ?? 0
  return 0.5 * 10 ** (Number(exponent) - decimals)
}

describe('factors of NIST SP 811, Appendix B', () => {
  test.each(PRINTED)('%s: one %s is %s in SI', (unit, _name, factor, exact) => {
    const tolerance = exact ? 1e-15 * numberIn(factor) : halfLastPlace(factor)
    expect(Math.abs(toSi(1, unit) - numberIn(factor))).toBeLessThanOrEqual(tolerance)
  })

  test('a metre of water is 100 conventional centimetres of water, 9.806 65 E+01 Pa each (B.8)', () => {
    expect(toSi(1, 'mH2O')).toBeCloseTo(9806.65, 9)
  })

  test('an inch of water, conventional, 2.490 889 E+02 Pa (B.8), is a twelfth of our foot of water', () => {
    expect(toSi(1, 'ftH2O') / 12).toBeCloseTo(249.0889, 4)
  })
})

describe('definitions behind the factors', () => {
  /** NIST Handbook 44, Appendix C: US gallon = 231 cubic inches. */
  test('a US gallon is 231 cubic inches, 3.785 411 784 L', () => {
    expect(fromSi(toSi(1, 'gal'), 'L')).toBeCloseTo(3.785411784, 12)
  })

  /** SP 811 footnotes 22 and 23: pound 0.453 592 37 kg, pound-force 4.448 221 615 260 5 N, both exact. */
  test('a psi is one pound-force on one square inch', () => {
    expect(toSi(1, 'psi') * 0.0254 ** 2).toBeCloseTo(4.4482216152605, 12)
  })

  /** SP 811 B.9, Temperature: T/K = t/°C + 273.15; t/°C = (t/°F - 32)/1.8. */
  test.each([
    [32, 0],
    [212, 100],
    [-40, -40],
    [50, 10],
    [98.6, 37],
  ])('%d °F is %d °C', (fahrenheit, celsius) => {
    expect(fromSi(toSi(fahrenheit, 'degF'), 'degC')).toBeCloseTo(celsius, 9)
    expect(toSi(celsius, 'degC')).toBeCloseTo(celsius + 273.15, 12)
  })

  /** From memory: 1 imperial gallon is about 1.200 95 US gallons. */
  test('the imperial gallon is a fifth larger than the US gallon', () => {
    expect(fromSi(toSi(1, 'impgal'), 'gal')).toBeCloseTo(1.20095, 5)
  })
})
