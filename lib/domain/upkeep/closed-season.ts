import { addDays, type Day, dayOf, isRealDate, yearOf } from '@/lib/domain/quantity'
import type { ClosedSeason } from './types'

/** 'earlier' to the day before the season closes, 'later' to the first open day after it. */
export type Move = { day: Day; moved: 'no' | 'earlier' | 'later' | 'never-open' }

/**
 * A due day moved out of the closed season: to the last open day before it, or, where that is not after the day on
 * which the work was last done, to the first open day after.
 *
 * Shape   both ends of the season are closed days; a season may wrap the year's end.
 * Answer  'never-open' with the day unmoved where the season fills the whole year. Within the first and last year
 *         of the calendar (1900, 2199) days stay where they are.
 * Throws  RangeError on an end that is not 'MM-DD' of a real day (29 February is one).
 */
export function moveOutOfSeason(day: Day, season: ClosedSeason, lastDoneOn: Day | null): Move {
  requireMonthDay(season.from)
  requireMonthDay(season.to)
  const year = yearOf(day)
  if (!isClosed(day, season) || year <= 1900 || year >= 2199) return { day, moved: 'no' }
  const before = addDays(lastStart(day, season.from), -1)
  if (isClosed(before, season)) return { day, moved: 'never-open' }
  if (lastDoneOn === null || before > lastDoneOn) return { day: before, moved: 'earlier' }
  return { day: addDays(nextEnd(day, season.to), 1), moved: 'later' }
}

/** True on a day inside the season, ends included. */
function isClosed(day: Day, season: ClosedSeason): boolean {
  const monthDay = day.slice(5)
  return season.from <= season.to
    ? monthDay >= season.from && monthDay <= season.to
    : monthDay >= season.from || monthDay <= season.to
}

/** The last day, at or before `day`, on which the season began. */
function lastStart(day: Day, from: string): Day {
  const year = yearOf(day)
  const start = realDay(year, from, '03-01')
  return start <= day ? start : realDay(year - 1, from, '03-01')
}

/** The first day, at or after `day`, on which the season ends. */
function nextEnd(day: Day, to: string): Day {
  const year = yearOf(day)
  const end = realDay(year, to, '02-28')
  return end >= day ? end : realDay(year + 1, to, '02-28')
}

/** A month and day in a year; 29 February gives way to `common` in a common year. */
function realDay(year: number, monthDay: string, common: string): Day {
  const [month = 0, dayOfMonth = 0] = monthDay.split('-').map(Number)
  if (isRealDate(year, month, dayOfMonth)) return dayOf(year, month, dayOfMonth)
  return realDay(year, common, common)
}

function requireMonthDay(text: string): void {
  const [month = 0, dayOfMonth = 0] = text.split('-').map(Number)
  if (!/^\d\d-\d\d$/.test(text) || !isRealDate(2000, month, dayOfMonth)) {
    throw new RangeError(`"${text}" is no month and day like 11-30`)
  }
}
