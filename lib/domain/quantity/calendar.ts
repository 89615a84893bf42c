/**
 * Arithmetic on plain calendar days held as text 'YYYY-MM-DD' (proleptic Gregorian, 1900 to 2199).
 * A day has no clock and no time zone, so no day is ever lost or doubled by summer time or travel.
 *
 * Source  day numbers by counting years from 1 March, as in H. Hinnant, "chrono-Compatible Low-Level Date
 *         Algorithms" (days_from_civil, civil_from_days), from memory; checked against the Temporal polyfill.
 */

/** A calendar day as text, 'YYYY-MM-DD'. Text order is time order. */
export type Day = string

/** The first and the last day that isDay accepts. */
export const FIRST_DAY: Day = '1900-01-01'
export const LAST_DAY: Day = '2199-12-31'

const YEAR_MIN = 1900
const YEAR_MAX = 2199
/** The mean Gregorian year: 146 097 days in 400 years. */
const DAYS_PER_YEAR = 365.2425
const NOT_A_DAY = Number.NaN

/**
 * True for the text of a real calendar day from 1900 to 2199, exactly 'YYYY-MM-DD'.
 * For a value already known to be text the answer is a plain boolean, so that the text stays usable when false.
 */
export function isDay(text: string): boolean
export function isDay(text: unknown): text is Day
export function isDay(text: unknown): boolean {
  return typeof text === 'string' && !Number.isNaN(readDayNumber(text))
}

/** True when year, month (1-12) and day of month name a real day from 1900 to 2199. All integers. */
export function isRealDate(year: number, month: number, dayOfMonth: number): boolean {
  return (
    year >= YEAR_MIN &&
    year <= YEAR_MAX &&
    month >= 1 &&
    month <= 12 &&
    dayOfMonth >= 1 &&
    dayOfMonth <= daysInMonth(year, month)
  )
}

/**
 * The day as text from year, month (1-12) and day of month.
 * Throws  RangeError when there is no such day.
 */
export function dayOf(year: number, month: number, dayOfMonth: number): Day {
  if (!isRealDate(year, month, dayOfMonth))
    throw new RangeError(`no such day: ${year}-${month}-${dayOfMonth}`)
  return `${year}-${twoDigits(month)}-${twoDigits(dayOfMonth)}`
}

/**
 * The day `n` days later (earlier when negative). `n` is a whole number.
 * Throws  RangeError on text that is no day, on a fraction, and when the answer leaves 1900 to 2199.
 */
export function addDays(day: Day, n: number): Day {
  if (!Number.isInteger(n)) throw new RangeError(`${n} is not a whole number of days`)
  return dayFromNumber(dayNumber(day) + n)
}

/**
 * The same day of the month `n` months later (earlier when negative), or the last day of that month where it has
 * no such day: 31 January + 1 month is 28 or 29 February. Always count from the anchor (31 Jan + 2 = 31 Mar),
 * never from the last answer, or the series drifts to the 28th.
 * Throws  RangeError on text that is no day, on a fraction, and when the answer leaves 1900 to 2199.
 */
export function addMonths(day: Day, n: number): Day {
  if (!Number.isInteger(n)) throw new RangeError(`${n} is not a whole number of months`)
  dayNumber(day)
  const months = yearOf(day) * 12 + monthOf(day) - 1 + n
  const year = Math.floor(months / 12)
  const month = months - year * 12 + 1
  return dayOf(year, month, Math.min(digits2(day, 8), daysInMonth(year, month)))
}

/** Days from `a` to `b` (b - a), negative when b is earlier. Throws RangeError on text that is no day. */
export function daysBetween(a: Day, b: Day): number {
  return dayNumber(b) - dayNumber(a)
}

/** -1, 0 or 1 as `a` is before, the same as, or after `b`; fit for sort(). */
export function compareDays(a: Day, b: Day): -1 | 0 | 1 {
  if (a === b) return 0
  return a < b ? -1 : 1
}

/** 1 on 1 January to 365 or 366 on 31 December. Throws RangeError on text that is no day. */
export function dayOfYear(day: Day): number {
  return dayNumber(day) - numberFromCivil(yearOf(day), 1, 1) + 1
}

/** Decimal years from `origin` to `day`, by days / 365.2425. Throws RangeError on text that is no day. */
export function yearsSince(day: Day, origin: Day): number {
  return daysBetween(origin, day) / DAYS_PER_YEAR
}

/** The month, 1 to 12. The text must be a day (not checked: this is called in inner loops). */
export function monthOf(day: Day): number {
  return digits2(day, 5)
}

/** The year. The text must be a day (not checked: this is called in inner loops). */
export function yearOf(day: Day): number {
  return digits2(day, 0) * 100 + digits2(day, 2)
}

function daysInMonth(year: number, month: number): number {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31
}

/** Days since 1970-01-01. Throws RangeError on text that is no day: callers check what people type. */
function dayNumber(day: Day): number {
  const number = readDayNumber(day)
  if (Number.isNaN(number)) throw new RangeError(`"${day}" is not a day from ${FIRST_DAY} to ${LAST_DAY}`)
  return number
}

/** Days since 1970-01-01, or NOT_A_DAY. Reads character codes: no regular expression in the inner loop. */
function readDayNumber(text: string): number {
  if (text.length !== 10 || text.charCodeAt(4) !== 45 || text.charCodeAt(7) !== 45) return NOT_A_DAY
  const century = digits2(text, 0)
  const yearOfCentury = digits2(text, 2)
  const month = digits2(text, 5)
  const dayOfMonth = digits2(text, 8)
  if (century < 0 || yearOfCentury < 0) return NOT_A_DAY
  const year = century * 100 + yearOfCentury
  return isRealDate(year, month, dayOfMonth) ? numberFromCivil(year, month, dayOfMonth) : NOT_A_DAY
}

/** The number in two digits from `at`, or -1 where one of them is not a digit. */
function digits2(text: string, at: number): number {
  const tens = text.charCodeAt(at) - 48
  const ones = text.charCodeAt(at + 1) - 48
  return tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9 ? tens * 10 + ones : -1
}

/** Years begin on 1 March here, so that the leap day comes last and month lengths follow one rule. */
function numberFromCivil(year: number, month: number, dayOfMonth: number): number {
  const y = month <= 2 ? year - 1 : year
  const era = Math.floor(y / 400)
  const yearOfEra = y - era * 400
  const dayOfMarchYear = (((153 * (month > 2 ? month - 3 : month + 9) + 2) / 5) | 0) + dayOfMonth - 1
  const dayOfEra = yearOfEra * 365 + ((yearOfEra / 4) | 0) - ((yearOfEra / 100) | 0) + dayOfMarchYear
  return era * 146_097 + dayOfEra - 719_468
}

/** The inverse of numberFromCivil. */
function dayFromNumber(number: number): Day {
  const shifted = number + 719_468
  const era = Math.floor(shifted / 146_097)
  const dayOfEra = shifted - era * 146_097
  const yearOfEra =
    ((dayOfEra - ((dayOfEra / 1460) | 0) + ((dayOfEra / 36_524) | 0) - ((dayOfEra / 146_096) | 0)) / 365) | 0
  const dayOfMarchYear = dayOfEra - (365 * yearOfEra + ((yearOfEra / 4) | 0) - ((yearOfEra / 100) | 0))
  const marchMonth = ((5 * dayOfMarchYear + 2) / 153) | 0
  const month = marchMonth < 10 ? marchMonth + 3 : marchMonth - 9
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0)
  return dayOf(year, month, dayOfMarchYear - (((153 * marchMonth + 2) / 5) | 0) + 1)
}

function twoDigits(n: number): string {
  return n < 10 ? `0${n}` : `${n}`
}
