/** Days by month, and use spread over months: the small arithmetic under a meter's pace. */
import { addDays, type Day, dayOf, daysBetween, monthOf, yearOf } from '@/lib/domain/quantity'

/** Mean days of a calendar month in the Gregorian 400 years, January first; they add up to 365.2425. */
export const MONTH_DAYS: readonly number[] = [31, 28.2425, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
export const YEAR_DAYS = 365.2425

/** A stretch inside one calendar month: `days` days that end on `to`. `month` is 0 to 11. */
export type MonthPiece = { month: number; days: number; to: Day }

/** The days after `from` up to and with `to`, cut at month ends, in time order. None unless from < to. */
export function* monthPieces(from: Day, to: Day): Generator<MonthPiece> {
  let at = from
  while (at < to) {
    const next = addDays(at, 1)
    const end = lastOfMonth(next)
    const pieceTo = end < to ? end : to
    yield { month: monthOf(next) - 1, days: daysBetween(at, pieceTo), to: pieceTo }
    at = pieceTo
  }
}

/** Twelve counts of days after `from` up to and with `to`. */
export function daysByMonth(from: Day, to: Day): number[] {
  const days = new Array<number>(12).fill(0)
  for (const piece of monthPieces(from, to)) days[piece.month] = (days[piece.month] ?? 0) + piece.days
  return days
}

/** Days after `from` up to `to`, each weighted by its month's factor: a day of mean use counts 1. */
export function weightedDays(from: Day, to: Day, byMonth: readonly number[]): number {
  return dot(daysByMonth(from, to), byMonth)
}

/** The sum of products of two lists of twelve. */
export function dot(a: readonly number[], b: readonly number[]): number {
  let sum = 0
  for (let m = 0; m < 12; m++) sum += (a[m] ?? 0) * (b[m] ?? 0)
  return sum
}

function lastOfMonth(day: Day): Day {
  const month = monthOf(day)
  const year = yearOf(day)
  return month === 12 ? dayOf(year, 12, 31) : addDays(dayOf(year, month + 1, 1), -1)
}
