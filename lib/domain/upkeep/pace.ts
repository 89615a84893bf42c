/**
 * How fast a meter runs, month by month, out of readings taken at any dates.
 *
 * Method  the use between two readings is spread over the months it spans in proportion to the factors so far; the
 *         factors are then made anew from what each month got, smoothed over neighbours and drawn a little towards
 *         an even year; repeated. This is expectation-maximisation for counts seen only as sums over stretches
 *         (Dempster, Laird & Rubin 1977), with the smoothing step of Silverman, Jones, Wilson & Nychka 1990,
 *         J. R. Stat. Soc. B 52:271-324. Both from memory.
 * Scatter departures from the fitted pace, as one relative deviation that lasts for LAST_YEARS; drawn towards
 *         SCATTER_USUAL where the record is short.
 */
import { type Day, daysBetween } from '@/lib/domain/quantity'
import { daysByMonth, dot, MONTH_DAYS, YEAR_DAYS } from './season'
import type { Pace } from './types'

/** Known use over the days after `from` up to `to`, s or m³. */
export type Stretch = { from: Day; to: Day; used: number }

const READINGS_MIN = 3
const DAYS_MIN = 60
const ROUNDS = 30
/** The factors have settled when none moves by more than this. */
const CHANGE_SMALL = 0.002
/** Days of even use added to each month: keeps a month seen once from standing at nought. */
const EVEN_DAYS = 3
/** Share of its own value that a month keeps when smoothed; the rest comes half from each neighbour. */
const OWN_SHARE = 0.9
/** After this many years a reading counts half for the present level. */
const HALF_LIFE_YEARS = 1
/** How long a departure from the usual pace lasts: a dry summer, a house full of guests. */
const LAST_YEARS = 0.3
/** Scatter taken where nothing is known, and the weight it keeps, in stretches. Common practice, no published source. */
const SCATTER_USUAL = 0.3
const SCATTER_WEIGHT = 3

/**
 * The pace of a meter from stretches of known use.
 *
 * Shape   stretches in time order, not overlapping; use in s or m³, never negative.
 * Answer  'too-few' under three readings or under 60 days: two readings make a rate of any one season.
 */
export function fitPace(stretches: readonly Stretch[]): Pace {
  const first = stretches[0]
  const last = stretches[stretches.length - 1]
  const have = first ? stretches.length + 1 : 0
  if (!first || !last || have < READINGS_MIN) {
    return {
      kind: 'too-few',
      have,
      need: READINGS_MIN,
      why: `${READINGS_MIN} meter readings that follow each other are needed to say how fast it runs, and there ${countText(have)}`,
    }
  }
  const spanDays = daysBetween(first.from, last.to)
  if (spanDays < DAYS_MIN) {
    return {
      kind: 'too-few',
      have,
      need: READINGS_MIN,
      why: `the meter readings span ${spanDays} days, and ${DAYS_MIN} are needed to say how fast it runs`,
    }
  }
  const days = stretches.map((stretch) => daysByMonth(stretch.from, stretch.to))
  const byMonth = factorsByMonth(stretches, days)
  const { perDay, years } = recentLevel(stretches, days, byMonth, last.to)
  return {
    kind: 'pace',
    perDay,
    byMonth,
    years,
    scatter: scatterOf(stretches, days, byMonth, perDay),
    unseen: MONTH_DAYS.flatMap((_, m) => (days.some((counts) => (counts[m] ?? 0) > 0) ? [] : [m + 1])),
  }
}

/** Variance of the mean over `years` of a unit departure that fades with LAST_YEARS: 1 at once, falling to 0. */
export function shareLeft(years: number): number {
  const x = years / LAST_YEARS
  if (x < 1e-4) return 1
  return (2 / x) * (1 - (1 - Math.exp(-x)) / x)
}

function countText(have: number): string {
  if (have === 0) return 'are none'
  return have === 1 ? 'is 1' : `are ${have}`
}

function factorsByMonth(stretches: readonly Stretch[], days: readonly number[][]): number[] {
  const exposure = sumOf(days)
  const touched = days.map((counts) => counts.flatMap((count, m) => (count > 0 ? [m] : [])))
  const whole = stretches.reduce((sum, { used }) => sum + used, 0)
  let factors = new Array<number>(12).fill(1)
  for (let round = 0; round < ROUNDS; round++) {
    const got = shareOut(stretches, days, touched, factors)
    const level = whole / dot(exposure, factors)
    if (!(level > 0)) return factors
    const raw = got.map((use, m) => (use / level + EVEN_DAYS) / ((exposure[m] ?? 0) + EVEN_DAYS))
    const next = toMeanOne(smoothed(raw))
    const change = Math.max(...next.map((factor, m) => Math.abs(factor - (factors[m] ?? 0))))
    factors = next
    if (change < CHANGE_SMALL) break
  }
  return factors
}

/** The use of each stretch shared out over its months in proportion to the factors; twelve sums. */
function shareOut(
  stretches: readonly Stretch[],
  days: readonly number[][],
  touched: readonly number[][],
  factors: readonly number[],
): number[] {
  const got = new Array<number>(12).fill(0)
  stretches.forEach(({ used }, i) => {
    const counts = days[i] ?? []
    const months = touched[i] ?? []
    let weight = 0
    for (const m of months) weight += (counts[m] ?? 0) * (factors[m] ?? 0)
    if (weight <= 0) return
    const perWeight = used / weight
    for (const m of months) got[m] = (got[m] ?? 0) + perWeight * (counts[m] ?? 0) * (factors[m] ?? 0)
  })
  return got
}

function smoothed(values: readonly number[]): number[] {
  const side = (1 - OWN_SHARE) / 2
  return values.map(
    (own, m) => OWN_SHARE * own + side * ((values[(m + 11) % 12] ?? own) + (values[(m + 1) % 12] ?? own)),
  )
}

function toMeanOne(factors: readonly number[]): number[] {
  const mean = dot(MONTH_DAYS, factors) / YEAR_DAYS
  return factors.map((factor) => factor / mean)
}

/** Use over expected days, later stretches counting more. */
function recentLevel(
  stretches: readonly Stretch[],
  days: readonly number[][],
  byMonth: readonly number[],
  end: Day,
): { perDay: number; years: number } {
  let use = 0
  let expected = 0
  let calendar = 0
  stretches.forEach(({ from, to, used }, i) => {
    const length = daysBetween(from, to)
    const ageYears = (daysBetween(to, end) + length / 2) / YEAR_DAYS
    const weight = 2 ** (-ageYears / HALF_LIFE_YEARS)
    use += weight * used
    expected += weight * dot(days[i] ?? [], byMonth)
    calendar += weight * length
  })
  return { perDay: expected > 0 ? use / expected : 0, years: calendar / YEAR_DAYS }
}

function scatterOf(
  stretches: readonly Stretch[],
  days: readonly number[][],
  byMonth: readonly number[],
  perDay: number,
): number {
  let squares = 0
  let expectedSquares = 0
  stretches.forEach(({ from, to, used }, i) => {
    const expected = perDay * dot(days[i] ?? [], byMonth)
    squares += (used - expected) ** 2
    expectedSquares += expected ** 2 * shareLeft(daysBetween(from, to) / YEAR_DAYS)
  })
  const seen = expectedSquares > 0 ? squares / expectedSquares : SCATTER_USUAL ** 2
  const n = stretches.length
  return Math.sqrt((n * seen + SCATTER_WEIGHT * SCATTER_USUAL ** 2) / (n + SCATTER_WEIGHT))
}

function sumOf(rows: readonly number[][]): number[] {
  const sum = new Array<number>(12).fill(0)
  for (const row of rows) for (let m = 0; m < 12; m++) sum[m] = (sum[m] ?? 0) + (row[m] ?? 0)
  return sum
}
