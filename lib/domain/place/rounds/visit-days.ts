/** The days of the week on which a household wishes visits. */
import { type Day, daysBetween, FIRST_DAY } from '@/lib/domain/quantity'

/** Monday first, as they are written in a cell of a sheet and shown in full. */
const NAMES = [
  { short: 'Mon', full: 'Monday' },
  { short: 'Tue', full: 'Tuesday' },
  { short: 'Wed', full: 'Wednesday' },
  { short: 'Thu', full: 'Thursday' },
  { short: 'Fri', full: 'Friday' },
  { short: 'Sat', full: 'Saturday' },
  { short: 'Sun', full: 'Sunday' },
] as const
const EVERY_DAY = [1, 2, 3, 4, 5, 6, 7]
const GROUPS: Readonly<Record<string, readonly number[]>> = {
  weekday: [1, 2, 3, 4, 5],
  weekdays: [1, 2, 3, 4, 5],
  weekend: [6, 7],
  weekends: [6, 7],
  daily: EVERY_DAY,
}
/** Said around the names, and nothing by themselves. */
const FILLERS = new Set(['only', 'on', 'and', 'or'])
const LENGTH_MAX = 120

/** `stored` is "Tue, Sat", Monday first, and null where every day suits. */
export type VisitDaysReading = { ok: true; stored: string | null } | { ok: false; message: string }

/**
 * Reads days of the week as people write them: "Tue, Sat", "only Tuesdays and Saturdays", "Mon-Fri", "weekends".
 * A span may go over the end of the week ("Sat to Mon"). Blank and all seven days are the same: every day suits.
 */
export function readVisitDays(text: string): VisitDaysReading {
  const tidy = text.trim().toLowerCase()
  if (tidy.length > LENGTH_MAX) return notDays(text)
  const days = new Set<number>()
  for (const part of partsOf(tidy)) {
    const group = GROUPS[part] ?? spanOf(part)
    if (group === null) return notDays(part)
    for (const day of group) days.add(day)
  }
  if (tidy !== '' && days.size === 0) return notDays(text)
  const all = days.size === 0 || days.size === EVERY_DAY.length
  return { ok: true, stored: all ? null : shortNames([...days].sort((a, b) => a - b)) }
}

/** Names and spans, each without spaces inside. */
function partsOf(tidy: string): string[] {
  return tidy
    .replace(/\s*(?:-|–|\b(?:to|till|until|through)\b)\s*/g, '-')
    .split(/[\s,;/&+.]+/)
    .filter((part) => part !== '' && !FILLERS.has(part))
}

/** The days of "sat" or of "mon-fri"; null where a name in it is no day of the week. */
function spanOf(part: string): number[] | null {
  const [from, to, ...more] = part.split('-').map(dayNamed)
  if (from === undefined || from === null || to === null || more.length > 0) return null
  if (to === undefined) return [from]
  const length = ((to - from + 7) % 7) + 1
  return Array.from({ length }, (_, i) => ((from - 1 + i) % 7) + 1)
}

/** 1 for Monday to 7 for Sunday, from two letters up; null for what is no day. */
function dayNamed(word: string): number | null {
  const name = word.replace(/s$/, '')
  if (name.length < 2) return null
  const at = NAMES.findIndex(({ full }) => full.toLowerCase().startsWith(name))
  if (at >= 0) return at + 1
  // Short names that stop within a letter or two of the usual ones, and lose their "s" above.
  return { tues: 2, wednes: 3, thur: 4, thurs: 4 }[name] ?? null
}

const shortNames = (days: readonly number[]) => days.map((day) => NAMES[day - 1]?.short ?? '').join(', ')

const notDays = (text: string): VisitDaysReading => ({
  ok: false,
  message: `"${text.trim().slice(0, 40)}" is no day of the week: write them like Tue, Sat, or leave it blank for any day`,
})

/**
 * The days as numbers, 1 for Monday to 7 for Sunday; every day where none are named.
 * Throws  RangeError on a text that readVisitDays never gave: it was read on the way in.
 */
export function visitDayNumbers(stored: string | null): readonly number[] {
  if (stored === null) return EVERY_DAY
  return stored.split(', ').map((name) => {
    const at = NAMES.findIndex(({ short }) => short === name)
    if (at < 0) throw new RangeError(`"${name}" is not a day of the week as stored`)
    return at + 1
  })
}

/** The days on which nobody is to come, 1 for Monday to 7 for Sunday. */
export function daysNotWished(stored: string | null): number[] {
  const wished = visitDayNumbers(stored)
  return EVERY_DAY.filter((day) => !wished.includes(day))
}

/** "only on Tuesday or Saturday"; '' where every day suits. */
export const visitDaysWords = (stored: string | null): string =>
  stored === null ? '' : wishedDaysWords(visitDayNumbers(stored))

/** As visitDaysWords, of numbers from 1 for Monday to 7 for Sunday; "on no day" for none. */
export function wishedDaysWords(days: readonly number[]): string {
  const names = days.map(nameOfWeekday)
  const last = names.at(-1)
  if (last === undefined) return 'on no day'
  return `only on ${names.length > 1 ? `${names.slice(0, -1).join(', ')} or ${last}` : last}`
}

/** 1 for Monday to 7 for Sunday. */
export function weekday(day: Day): number {
  // The first day of the calendar, 1 January 1900, was a Monday.
  return (daysBetween(FIRST_DAY, day) % 7) + 1
}

/** Whether a visit on that day goes against the days wished. */
export const isUnwishedDay = (stored: string | null, day: Day): boolean =>
  !visitDayNumbers(stored).includes(weekday(day))

/** "Monday" for 1 to "Sunday" for 7. */
export const nameOfWeekday = (number: number): string => NAMES[number - 1]?.full ?? ''
