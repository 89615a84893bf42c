/** Days and times as people and spreadsheets write them: read without guessing, and written out. */
import { type Day, dayOf, isDay, isRealDate, monthOf, yearOf } from './calendar'

/** How a date of three numbers is meant: 27/3/2026 is 'dmy', 3/27/2026 is 'mdy', 26-03-27 is 'ymd'. */
export type DateOrder = 'ymd' | 'dmy' | 'mdy'

/** Why a text gave no day, and a sentence that says what to do about it. */
type DayProblem = { ok: false; reason: 'not-a-date' | 'ambiguous' | 'not-real'; message: string }
export type DayReading = { ok: true; day: Day } | DayProblem
/** `time` is 'HH:MM', or null where the text has none: midnight is never made up. */
export type DayTimeReading = { ok: true; day: Day; time: string | null } | DayProblem
export type TimeReading =
  | { ok: true; time: string }
  | { ok: false; reason: 'not-a-time' | 'not-real'; message: string }

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
]
/** Longer text is prose, not a date; the patterns below are not run over it. */
const LENGTH_MAX = 60
const SPACES = /[\s\u00a0\u2000-\u200b\u202f\u205f\u3000]+/g
const TIME_PART = /^(.*\d)(?:T| T?|, )(\d{1,2}(?::|h)\d{2}.*|\d{1,2} ?[ap]\.?m\.?)$/i
const TIME =
  /^(\d{1,2})(?:(?::|h)(\d{2})(?::(\d{2})(?:[.,]\d+)?)?)?(?: ?([ap])\.?m\.?)?(?:Z| ?[+-]\d{2}(?::?\d{2})?)?$/i
const YEAR_FIRST = /^(\d{4})([-/.])(\d{1,2})\2(\d{1,2})$/
const NUMBERS = /^(\d{1,2})([-/.])(\d{1,2})\2(\d{4}|\d{2})$/
const NAME_SECOND = /^(\d{1,2})(?:st|nd|rd|th)?[ -]?([a-z]{3,9})\.?,?[ -]?(\d{4}|\d{2})$/i
const NAME_FIRST = /^([a-z]{3,9})\.?[ -]?(\d{1,2})(?:st|nd|rd|th)?(?:, ?|[ -])(\d{4}|\d{2})$/i

/**
 * Reads a day: 2026-03-27, 2026/3/27, 27 Mar 2026, March 27, 2026, 27/3/2026, 3-27-26, each also with a time part,
 * which is left aside (the date is taken as written: no time zone is applied).
 *
 * `order` is what the user or the file is known to mean. With null, 03/04/2025 is 'ambiguous', while 28/10/2025 and
 * 03/03/2025 have only one reading. Years of two digits need an order; 70-99 are 19xx, 00-69 are 20xx.
 * With an order, a date that is not real in that order is refused, never turned round.
 */
export function parseDay(text: string, order: DateOrder | null): DayReading {
  const reading = parseDayTime(text, order)
  return reading.ok ? { ok: true, day: reading.day } : reading
}

/** As parseDay, and keeps the time part ('HH:MM', as written) or null where there is none. */
export function parseDayTime(text: string, order: DateOrder | null): DayTimeReading {
  const tidy = text.replace(SPACES, ' ').trim()
  if (tidy.length > LENGTH_MAX) return notADate(tidy)
  const withTime = TIME_PART.exec(tidy)
  if (!withTime) return withTimeOf(readDate(tidy, order), null)
  const time = parseTime(withTime[2] ?? '')
  if (!time.ok)
    return {
      ok: false,
      reason: time.reason === 'not-real' ? 'not-real' : 'not-a-date',
      message: time.message,
    }
  return withTimeOf(readDate((withTime[1] ?? '').trim(), order), time.time)
}

/**
 * Reads a time of day as 'HH:MM': 14:30, 2:30 pm, 2 pm, 14h30, 1430, 14:30:15 (seconds dropped). A zone mark is
 * dropped, too: the time is taken as written on the sheet.
 */
export function parseTime(text: string): TimeReading {
  const tidy = text.replace(SPACES, ' ').trim()
  const packed = /^([01]\d|2\d)(\d{2})$/.exec(tidy)
  const match = TIME.exec(packed ? `${packed[1]}:${packed[2]}` : tidy)
  const half = match?.[4]?.toLowerCase()
  if (tidy.length > LENGTH_MAX || !match || (match[2] === undefined && !half)) {
    return { ok: false, reason: 'not-a-time', message: `"${tidy}" is not a time of day: write it like 14:30` }
  }
  const hours = Number(match[1])
  const minutes = Number(match[2] ?? '0')
  const seconds = Number(match[3] ?? '0')
  const hoursReal = half ? hours >= 1 && hours <= 12 : hours <= 23
  if (!hoursReal || minutes > 59 || seconds > 59) {
    return {
      ok: false,
      reason: 'not-real',
      message: `"${tidy}" is no time of day: hours run to 23, minutes to 59`,
    }
  }
  const hours24 = half ? (hours % 12) + (half === 'p' ? 12 : 0) : hours
  return { ok: true, time: `${String(hours24).padStart(2, '0')}:${String(minutes).padStart(2, '0')}` }
}

/**
 * A day in words: 'long' 27 March 2026 / March 27, 2026; 'short' 27 Mar 2026 / Mar 27, 2026; 'iso' 2026-03-27.
 * Throws  RangeError on text that is no day.
 */
export function formatDay(day: Day, style: 'long' | 'short' | 'iso', locale: 'en-US' | 'en-GB'): string {
  const name = isDay(day) ? MONTHS[monthOf(day) - 1] : undefined
  if (name === undefined) throw new RangeError(`"${day}" is not a day`)
  if (style === 'iso') return day
  const month = style === 'long' ? name : name.slice(0, 3)
  const dayOfMonth = Number(day.slice(8))
  return locale === 'en-US'
    ? `${month} ${dayOfMonth}, ${yearOf(day)}`
    : `${dayOfMonth} ${month} ${yearOf(day)}`
}

/** The name of a month, 1 to 12. Throws RangeError for another number. */
export function monthName(month: number): string {
  const name = MONTHS[month - 1]
  if (name === undefined) throw new RangeError(`month ${month}`)
  return name
}

function withTimeOf(reading: DayReading, time: string | null): DayTimeReading {
  return reading.ok ? { ok: true, day: reading.day, time } : reading
}

function readDate(text: string, order: DateOrder | null): DayReading {
  const yearFirst = YEAR_FIRST.exec(text)
  if (yearFirst) return realDay(text, yearFirst[1], Number(yearFirst[3]), Number(yearFirst[4]), order)
  const numbers = NUMBERS.exec(text)
  if (numbers) return readNumbers(text, numbers[1] ?? '', numbers[3] ?? '', numbers[4] ?? '', order)
  const second = NAME_SECOND.exec(text)
  const first = NAME_FIRST.exec(text)
  const month = monthNamed(second?.[2] ?? first?.[1] ?? '')
  if (month !== null) {
    return realDay(text, second?.[3] ?? first?.[3], month, Number(second?.[1] ?? first?.[2]), order)
  }
  return notADate(text)
}

/** Three numbers: the order decides, or else the calendar where it leaves only one reading. */
function readNumbers(
  text: string,
  one: string,
  two: string,
  three: string,
  order: DateOrder | null,
): DayReading {
  if (three.length === 2 && order === null) return yearUnclear(text)
  if (order === 'ymd' && three.length === 2) return realDay(text, one, Number(two), Number(three), order)
  if (order === 'dmy') return realDay(text, three, Number(two), Number(one), order)
  if (order === 'mdy') return realDay(text, three, Number(one), Number(two), order)
  const dayFirst = realDay(text, three, Number(two), Number(one), order)
  const monthFirst = realDay(text, three, Number(one), Number(two), order)
  // Neither real: complain about the reading whose month at least is one.
  if (!dayFirst.ok) return !monthFirst.ok && Number(two) <= 12 ? dayFirst : monthFirst
  if (!monthFirst.ok || monthFirst.day === dayFirst.day) return dayFirst
  const readings = `${formatDay(dayFirst.day, 'short', 'en-GB')} or ${formatDay(monthFirst.day, 'short', 'en-GB')}`
  return {
    ok: false,
    reason: 'ambiguous',
    message: `"${text}" can be ${readings}: say which comes first, day or month, or write it like ${dayFirst.day}`,
  }
}

function realDay(
  text: string,
  yearText: string | undefined,
  month: number,
  dayOfMonth: number,
  order: DateOrder | null,
): DayReading {
  if (yearText?.length === 2 && order === null) return yearUnclear(text)
  const year = fullYear(yearText ?? '')
  if (isRealDate(year, month, dayOfMonth)) return { ok: true, day: dayOf(year, month, dayOfMonth) }
  const known = year >= 1900 && year <= 2199
  const why = known
    ? `there is no day ${dayOfMonth} in month ${month} of ${year}`
    : 'the year must be from 1900 to 2199'
  return { ok: false, reason: 'not-real', message: `"${text}" is not on the calendar: ${why}` }
}

function notADate(text: string): DayProblem {
  const shown = text.length > LENGTH_MAX ? `${text.slice(0, LENGTH_MAX)}…` : text
  return { ok: false, reason: 'not-a-date', message: `"${shown}" is not a date: write it like 2026-03-27` }
}

function yearUnclear(text: string): DayProblem {
  return {
    ok: false,
    reason: 'ambiguous',
    message: `"${text}" has a year of two digits: write the year in full, like 2026-03-27`,
  }
}

function fullYear(text: string): number {
  const year = Number(text)
  if (text.length !== 2) return year
  return year >= 70 ? 1900 + year : 2000 + year
}

/** 1-12 for a full English month name or its first three letters (and "Sept"), else null. */
function monthNamed(text: string): number | null {
  const name = text.toLowerCase()
  const index = MONTHS.findIndex((month) => {
    const full = month.toLowerCase()
    return name === full || name === full.slice(0, 3)
  })
  if (index >= 0) return index + 1
  return name === 'sept' ? 9 : null
}
