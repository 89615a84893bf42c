/** Reads what people type into a measured quantity. Unknown stays unknown; nothing is guessed in silence. */
import { type NumberLocale, readNumber } from './number-text'
import {
  type Dimension,
  dimensionOf,
  findUnit,
  fromSi,
  toSi,
  type UnitId,
  unitSymbol,
  unitsOf,
} from './units'

export type { NumberLocale } from './number-text'

/** An SI value, beside the text it came from (trimmed, else exactly as typed) and the unit it was given in. */
export type Quantity = { si: number; typed: string; unit: UnitId }

export type QuantityProblemCode =
  | 'not-a-number'
  | 'which-comma'
  | 'unit-missing'
  | 'unit-unknown'
  | 'wrong-dimension'
  | 'out-of-range'
  | 'negative'

/** `message` is one sentence: what is wrong and what to do. */
type QuantityProblem = { kind: 'problem'; code: QuantityProblemCode; message: string }

/** `assumedUnit` is true when no unit was typed and the default was taken. */
export type QuantityReading =
  | { kind: 'blank' }
  | { kind: 'value'; quantity: Quantity; assumedUnit: boolean }
  | QuantityProblem

/**
 * `unit` is taken when none is typed; null asks for one. `min` and `max` are in SI, both ends allowed.
 * Numbers below zero are a 'negative' problem unless `min` is below zero or a temperature is read.
 */
export type QuantityOptions = {
  dimension: Dimension
  unit: UnitId | null
  locale: NumberLocale
  min?: number
  max?: number
}

type Term = { value: number; unit: UnitId | null; unitText: string }
type Terms = { kind: 'terms'; terms: Term[] } | QuantityProblem

/** Longer text is prose, not a quantity. */
const LENGTH_MAX = 60
const BLANK = /^(?:[-–—?]+|n\.?\/?a\.?|unknown|not known|not measured)?$/i
const CLOCK = /^(\d+):([0-5]\d)(?::([0-5]\d))?(?: ?(?:h|hrs?|hours?))?$/i
/** Everything up to the next number; a 2 or 3 belongs to the unit in m3, ft^3, H2O. */
const UNIT_TEXT = /^(?:h2o|(?<=m|t|d|in|\^)[23](?![\d.,a-z])|\.(?!\d)|[^\d.])+/i
const FRACTIONS: Readonly<Record<string, string>> = {
  '½': '1/2',
  '⅓': '1/3',
  '⅔': '2/3',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
}

/**
 * Reads a typed quantity: "9 gpm", "2' 4\"", "5 ft 6 1/2 in", "1,200 gal", "½ in", "7h30", "1:30" (hours:minutes),
 * "2 d 4 h". Blank, "-", "?", "n/a" and "unknown" are blank, never zero.
 *
 * Answer  'value' with the SI value; 'blank'; or 'problem' with a code and a sentence for the person who typed.
 * Throws  RangeError when the default unit does not measure `dimension`: that is our bug, not a typing slip.
 */
export function parseQuantity(text: string, options: QuantityOptions): QuantityReading {
  if (options.unit !== null && dimensionOf(options.unit) !== options.dimension) {
    throw new RangeError(`the default unit ${options.unit} does not measure ${options.dimension}`)
  }
  const typed = text.trim()
  const tidy = tidyText(typed)
  if (BLANK.test(tidy)) return { kind: 'blank' }
  if (tidy.length > LENGTH_MAX) return notANumber(`${tidy.slice(0, LENGTH_MAX)}…`, options)
  const clock = options.dimension === 'duration' ? CLOCK.exec(tidy) : null
  if (clock) {
    const si = Number(clock[1]) * 3600 + Number(clock[2]) * 60 + Number(clock[3] ?? '0')
    return withinRange({ si, typed, unit: 'h' }, false, options)
  }
  const negative = /^-/.test(tidy)
  const read = readTerms(tidy.replace(/^[+-] ?/, ''), typed, options)
  if (read.kind === 'problem') return read
  const sum = sumTerms(read.terms, typed, negative, options)
  return 'kind' in sum ? sum : withinRange(sum.quantity, sum.assumedUnit, options)
}

/**
 * An SI value as the shortest plain text in `unit` (no grouping, decimal point) that reads back as the same value to
 * 12 significant figures, which is finer than anything typed: 0.3048 × 12.4 in ft is "12.4".
 * Throws  RangeError on a value that is not finite.
 */
export function formatNumberPlain(si: number, unit: UnitId): string {
  if (!Number.isFinite(si)) throw new RangeError(`${si} is not a quantity`)
  const value = fromSi(si, unit)
  // An offset scale leaves noise near its zero that no significant-figure rule removes.
  const steady = dimensionOf(unit) === 'temperature' ? Number(value.toFixed(9)) : value
  return plainText(Number(steady.toPrecision(12)))
}

/** No exponent: 1e-7 is "0.0000001". */
function plainText(value: number): string {
  const text = String(value === 0 ? 0 : value)
  const match = /^(-?)(\d)(?:\.(\d+))?e([+-]\d+)$/.exec(text)
  if (!match) return text
  const [, sign = '', first = '', rest = '', power = '0'] = match
  const digits = first + rest
  const shift = Number(power)
  if (shift < 0) return `${sign}0.${'0'.repeat(-shift - 1)}${digits}`
  return sign + digits.padEnd(shift + 1, '0')
}

/** Plain spaces, primes, minus signs and fractions, so that the rest knows one spelling of each. */
function tidyText(typed: string): string {
  return typed
    .replace(/[\s\u00a0\u2000-\u200b\u202f\u205f\u3000]+/g, ' ')
    .replace(/[′’‘ʹ]/g, "'")
    .replace(/[″”“ʺ]|''/g, '"')
    .replace(/[−‐‑](?=[ .\d])|^–(?=[ .\d])/g, '-')
    .replace(/⁄/g, '/')
    .replace(
      /(\d?) ?([½⅓⅔¼¾⅛⅜⅝⅞])/g,
      (_, before: string, mark: string) => `${before} ${FRACTIONS[mark] ?? mark}`,
    )
    .trim()
}

/** Splits into number, unit, number, unit ... */
function readTerms(tidy: string, typed: string, options: QuantityOptions): Terms {
  const terms: Term[] = []
  let rest = tidy
  while (rest !== '') {
    const number = readNumber(rest, options.locale)
    if (number.kind === 'which-comma') return whichComma(number.text, options)
    if (number.kind === 'not-a-number') return notANumber(typed, options)
    rest = rest.slice(number.length)
    const raw = UNIT_TEXT.exec(rest)?.[0] ?? ''
    if (raw === '' && rest !== '') return notANumber(typed, options)
    rest = rest.slice(raw.length)
    const unitText = (rest === '' ? raw : raw.replace(/(?<=['"]) ?- ?$|,? ?(?:,|\band) ?$/i, '')).trim()
    const unit = readUnit(unitText, typed, terms.at(-1)?.unit ?? null, options)
    if (unit !== null && typeof unit === 'object') return unit
    terms.push({ value: number.value, unit, unitText })
  }
  return terms.length > 0 ? { kind: 'terms', terms } : notANumber(typed, options)
}

/** The unit named, null when none is, or the problem with what is named. */
function readUnit(
  text: string,
  typed: string,
  before: UnitId | null,
  options: QuantityOptions,
): UnitId | null | QuantityProblem {
  if (text === '') return null
  const unit = findUnit(text, options.dimension)
  if (unit !== null) return unit
  if (before === 'h' && text.toLowerCase() === 'm') return 'min'
  const other = findUnit(text, null)
  if (other !== null) {
    const what = dimensionOf(other)
    return problem(
      'wrong-dimension',
      `"${text}" measures ${WORDS[what]}, and this is ${WORDS[options.dimension]}: use ${unitsInWords(options)}`,
    )
  }
  return problem(
    'unit-unknown',
    `"${unknownPart(text, options)}" in "${typed}" is not understood: ${unknownAdvice(options)}`,
  )
}

/** What follows the longest beginning that is a unit: "below cap" of "ft below cap". */
function unknownPart(text: string, options: QuantityOptions): string {
  const words = text.split(' ')
  for (let n = words.length - 1; n > 0; n--) {
    if (findUnit(words.slice(0, n).join(' '), options.dimension) !== null) return words.slice(n).join(' ')
  }
  return text
}

function unknownAdvice(options: QuantityOptions): string {
  if (options.dimension === 'ratio') return 'leave a number, with or without %'
  return `leave a number and its unit, such as ${unitsInWords(options)}`
}

/** Adds "2 ft" and "4 in"; each later part must be smaller than one of the part before it. */
function sumTerms(
  terms: readonly Term[],
  typed: string,
  negative: boolean,
  options: QuantityOptions,
): { quantity: Quantity; assumedUnit: boolean } | QuantityProblem {
  const [first, ...later] = terms
  if (first === undefined) return notANumber(typed, options)
  const unit = first.unit ?? options.unit
  if (unit === null)
    return problem('unit-missing', `"${typed}" has no unit: add one, such as ${unitsInWords(options)}`)
  if (later.length > 0 && options.dimension !== 'length' && options.dimension !== 'duration') {
    return notANumber(typed, options)
  }
  let si = toSi(negative ? -first.value : first.value, unit)
  let before = first
  for (const term of later) {
    const small = term.unit ?? impliedUnit(before)
    const large = before.unit
    if (small === null || large === null || toSi(1, small) >= toSi(1, large))
      return notANumber(typed, options)
    if (!Number.isInteger(before.value) || toSi(term.value, small) >= toSi(1, large) * (1 - 1e-12)) {
      const rule = `a whole number of ${unitSymbol(large)}, then less than 1 ${unitSymbol(large)} in ${unitSymbol(small)}`
      return problem('not-a-number', `"${typed}" does not add up: write ${rule}`)
    }
    si += negative ? -toSi(term.value, small) : toSi(term.value, small)
    before = { ...term, unit: small }
  }
  return { quantity: { si, typed, unit }, assumedUnit: first.unit === null }
}

/** 5'6 is feet and inches, 7h30 hours and minutes; after any other unit a bare number means nothing. */
function impliedUnit(before: Term): UnitId | null {
  if (before.unitText === "'") return 'in'
  return before.unit === 'h' ? 'min' : null
}

function withinRange(quantity: Quantity, assumedUnit: boolean, options: QuantityOptions): QuantityReading {
  const { si, typed, unit } = quantity
  const { dimension, max } = options
  const min = options.min ?? 0
  if (si < 0 && min >= 0 && dimension !== 'temperature') {
    return problem('negative', `"${typed}" is below zero: give ${limitIn(unit, min, Math.ceil)} or more`)
  }
  if (si < min)
    return problem('out-of-range', `"${typed}" is too small: give ${limitIn(unit, min, Math.ceil)} or more`)
  if (max !== undefined && si > max)
    return problem('out-of-range', `"${typed}" is too large: give ${limitIn(unit, max, Math.floor)} or less`)
  return { kind: 'value', quantity, assumedUnit }
}

/** A limit to four figures, rounded towards the allowed side, so that the number suggested is itself accepted. */
function limitIn(unit: UnitId, si: number, inward: (n: number) => number): string {
  const value = Number(formatNumberPlain(si, unit))
  const step = value === 0 ? 1 : 10 ** (Math.floor(Math.log10(Math.abs(value))) - 3)
  const towards = inward === Math.floor ? 1e-6 : -1e-6
  const rounded = Number((inward(value / step + towards) * step).toPrecision(4))
  return `${plainText(rounded)} ${unitSymbol(unit)}`.trim()
}

function whichComma(text: string, { locale }: QuantityOptions): QuantityProblem {
  const advice =
    locale === 'en'
      ? 'write 12.5 for twelve and a half, 1,200 or 1200 for twelve hundred'
      : locale === 'comma'
        ? 'write 12,5 for twelve and a half, 1.200 or 1200 for twelve hundred'
        : 'write it without thousands marks, or say first whether the comma or the point is the decimal mark'
  return problem('which-comma', `"${text}" can be read in two ways: ${advice}`)
}

function notANumber(typed: string, options: QuantityOptions): QuantityProblem {
  const example = { en: '12.5', comma: '12,5' }[options.locale ?? 'en']
  const unit = options.unit === null ? unitsOf(options.dimension)[0] : options.unit
  const shown = unit === undefined ? '' : unitSymbol(unit)
  return problem(
    'not-a-number',
    `"${typed}" is not a number this field can read: write it like ${`${example} ${shown}`.trim()}`,
  )
}

function problem(code: QuantityProblemCode, message: string): QuantityProblem {
  return { kind: 'problem', code, message }
}

/** Up to four units of the dimension, the field's own first. */
function unitsInWords({ dimension, unit }: QuantityOptions): string {
  const ids = new Set(unit === null ? unitsOf(dimension) : [unit, ...unitsOf(dimension)])
  const symbols = [...ids].map(unitSymbol).filter((symbol) => symbol !== '')
  const few = symbols.slice(0, 4)
  const last = few.pop() ?? 'a plain number'
  return few.length > 0 ? `${few.join(', ')} or ${last}` : last
}

const WORDS: Readonly<Record<Dimension, string>> = {
  length: 'a length',
  area: 'an area',
  volume: 'a volume',
  flow: 'a flow',
  capacity: 'a flow for each length of drawdown',
  pressure: 'a pressure',
  duration: 'a time span',
  temperature: 'a temperature',
  current: 'a current',
  voltage: 'a voltage',
  power: 'a power',
  ratio: 'a plain ratio',
}
