import { addDays, addMonths, type Day, dayOfYear, daysBetween, monthOf } from '@/lib/domain/quantity/day'
import { dayLengthH, extraterrestrialMjPerM2 } from '../sun'
import { hourShares, type Plane, planeByDay } from './plane'
import { clearnessFromSunshine, clearnessOfDays, MONTHLY_CLEARNESS } from './sky'

/** What is known of the sun at a place, twelve values, January first. */
export type SunTable =
  /** Energy on a level square metre, MJ a day: the user's own table. */
  | { kind: 'energy'; mjPerM2Day: readonly number[] }
  /** Hours of bright sun a day. */
  | { kind: 'sunshine'; hoursPerDay: readonly number[] }
  /** Energy on the level over that above the air. */
  | { kind: 'clearness'; shares: readonly number[] }

/** Days of the middle of each month's energy, Klein 1977, as in Duffie & Beckman, Table 1.6.1. */
export const MEAN_DAYS = [17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344] as const

export type MonthlyClearness =
  | { kind: 'clearness'; shares: number[] }
  | { kind: 'cannot-say'; month: number; message: string }

/**
 * Mean clearness of each month from whatever table is at hand.
 * Answer  'cannot-say' with the month (1 to 12) whose value no sky on earth gives there: a wrong unit or place.
 * Throws  RangeError for a table that is not twelve long.
 */
export function monthlyClearness(table: SunTable, latitudeDeg: number): MonthlyClearness {
  const values =
    table.kind === 'energy' ? table.mjPerM2Day : table.kind === 'sunshine' ? table.hoursPerDay : table.shares
  if (values.length !== 12) throw new RangeError(`a sun table of ${values.length} months`)
  const shares: number[] = []
  for (const [i, day] of MEAN_DAYS.entries()) {
    const share = shareOf(table.kind, values[i] ?? Number.NaN, latitudeDeg, day)
    if (!(share >= MONTHLY_CLEARNESS.least && share <= MONTHLY_CLEARNESS.most)) {
      return {
        kind: 'cannot-say',
        month: i + 1,
        message: `The sun table has ${values[i]} for month ${i + 1}, which no sky gives at that latitude: check its unit and the place.`,
      }
    }
    shares.push(share)
  }
  return { kind: 'clearness', shares }
}

function shareOf(kind: SunTable['kind'], value: number, latitudeDeg: number, day: number): number {
  if (!(value >= 0)) return Number.NaN
  if (kind === 'clearness') return value
  if (kind === 'energy') {
    const above = extraterrestrialMjPerM2(latitudeDeg, day)
    // Where the sun does not rise there is no sky to be clear: any value that a day of nothing times it gives.
    return above < 0.1 ? (value < 0.1 ? MONTHLY_CLEARNESS.least : Number.NaN) : value / above
  }
  const longest = dayLengthH(latitudeDeg, day)
  if (longest < 0.1) return MONTHLY_CLEARNESS.least
  return value > longest ? Number.NaN : clearnessFromSunshine(value, longest)
}

/**
 * Power of the sun on a plane for each hour of so many days from a day on, W/m², in solar time.
 *
 * Shape   24 values a day; `shares` is the mean clearness of each month, January first.
 * Source  above the air FAO 56; days of a month, hours of a day and the tilt as in ./sky.ts and ./plane.ts.
 * Throws  RangeError for clearness or latitude out of range.
 */
export function sunOnPlane(plane: Plane, shares: readonly number[], from: Day, days: number): Float64Array {
  const power = new Float64Array(24 * days)
  const months = new Map<string, number[]>()
  const onPlane = planeByDay(plane)
  for (let d = 0; d < days; d++) {
    const day = addDays(from, d)
    const month = monthOf(day)
    const key = day.slice(0, 7)
    const clearness = months.get(key) ?? clearnessOfDays(shares[month - 1] ?? Number.NaN, daysIn(day))
    months.set(key, clearness)
    const number = dayOfYear(day)
    const energyJ =
      1e6 * extraterrestrialMjPerM2(plane.latitudeDeg, number) * (clearness[Number(day.slice(8)) - 1] ?? 0)
    const level = hourShares(plane.latitudeDeg, number).map((share) => (energyJ * share) / 3600)
    power.set(onPlane(number, level), 24 * d)
  }
  return power
}

/** Days in the month of a day. */
function daysIn(day: Day): number {
  const first = `${day.slice(0, 8)}01`
  return daysBetween(first, addMonths(first, 1))
}
