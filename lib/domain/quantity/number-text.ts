/** Reads a plain number as people write it, without guessing what a comma or a point means. */

/** What the comma means: 'en' 1,200.5; 'comma' 1.200,5; null when nobody has said. */
export type NumberLocale = 'en' | 'comma' | null

type NumberReading =
  | { kind: 'number'; value: number; length: number }
  | { kind: 'which-comma'; text: string }
  | { kind: 'not-a-number' }

const MIXED = /^(\d+)[ -](\d+) ?\/ ?(\d+)(?![\d/])/
const FRACTION = /^(\d+) ?\/ ?(\d+)(?![\d/])/
const SPACED = /^\d{1,3}(?: \d{3})+(?![\d])(?:([.,])(\d+))?(?![\d.,])/
const DECIMAL = /^[\d.,]*\d[\d.,]*/
const EXPONENT = /^e[+-]?\d{1,3}(?![\d.])/i

/**
 * Reads the number that `text` begins with (no sign, spaces already plain): 12.4, 1,200, 1 200, 1/2, 6 1/2, 6-1/2.
 * `length` is how many characters it took. A separator whose meaning the locale does not settle is 'which-comma'.
 */
export function readNumber(text: string, locale: NumberLocale): NumberReading {
  const mixed = MIXED.exec(text)
  if (mixed) return fraction(Number(mixed[1]), Number(mixed[2]), Number(mixed[3]), mixed[0].length)
  const simple = FRACTION.exec(text)
  if (simple) return fraction(0, Number(simple[1]), Number(simple[2]), simple[0].length)
  const spaced = SPACED.exec(text)
  if (spaced) return spacedNumber(spaced[0], spaced[1], locale)
  const run = DECIMAL.exec(text)?.[0].replace(/,$/, '')
  if (run === undefined) return { kind: 'not-a-number' }
  const plain = plainDecimal(run, locale)
  if (plain === 'which-comma') return { kind: 'which-comma', text: run }
  if (plain === null) return { kind: 'not-a-number' }
  const exponent = EXPONENT.exec(text.slice(run.length))?.[0] ?? ''
  return finite(Number(plain + exponent), run.length + exponent.length)
}

function fraction(whole: number, top: number, bottom: number, length: number): NumberReading {
  return finite(whole + top / bottom, length)
}

/** Groups set apart by spaces leave the comma or point only one meaning: the decimal mark. */
function spacedNumber(text: string, mark: string | undefined, locale: NumberLocale): NumberReading {
  if ((mark === ',' && locale === 'en') || (mark === '.' && locale === 'comma'))
    return { kind: 'which-comma', text }
  return finite(Number(text.replaceAll(' ', '').replace(',', '.')), text.length)
}

/** Refuses 1/0, 0/0 and 1e999. */
function finite(value: number, length: number): NumberReading {
  return Number.isFinite(value) ? { kind: 'number', value, length } : { kind: 'not-a-number' }
}

/** The digits with a decimal point and no grouping; null where no locale reads them. */
function plainDecimal(run: string, locale: NumberLocale): string | 'which-comma' | null {
  const commas = run.split(',').length - 1
  const points = run.split('.').length - 1
  if (commas === 0 && points === 0) return run
  if (commas > 0 && points > 0) return bothMarks(run, locale)
  const mark = commas > 0 ? ',' : '.'
  const decimalMark = locale === 'comma' ? ',' : locale === 'en' ? '.' : null
  const grouped = isGrouped(run, mark)
  const decimal = commas + points === 1
  if (decimalMark === mark) return decimal ? run.replace(mark, '.') : grouped ? 'which-comma' : null
  if (decimalMark !== null) return grouped ? run.replaceAll(mark, '') : decimal ? 'which-comma' : null
  if (!decimal) return grouped ? run.replaceAll(mark, '') : null
  return mark === '.' && !grouped ? run : 'which-comma'
}

/** With both marks the last is the decimal one, whatever the locale; a locale that says otherwise has to ask. */
function bothMarks(run: string, locale: NumberLocale): string | 'which-comma' | null {
  const decimalMark = run.lastIndexOf(',') > run.lastIndexOf('.') ? ',' : '.'
  const groupMark = decimalMark === ',' ? '.' : ','
  const [whole = '', fractionDigits = '', ...more] = run.split(decimalMark)
  if (more.length > 0 || !isGrouped(whole, groupMark) || !/^\d+$/.test(fractionDigits)) return null
  if (locale !== null && (locale === 'comma') !== (decimalMark === ',')) return 'which-comma'
  return `${whole.replaceAll(groupMark, '')}.${fractionDigits}`
}

/** 1,200 and 12,345,678 but not 0,125: nobody groups a leading zero. */
function isGrouped(text: string, mark: string): boolean {
  const [first = '', ...rest] = text.split(mark)
  return /^[1-9]\d{0,2}$/.test(first) && rest.length > 0 && rest.every((group) => /^\d{3}$/.test(group))
}
