/** Hours between two moments on a lab sheet: 'YYYY-MM-DD', or 'YYYY-MM-DDTHH:MM' in local time as written. */
import { addDays, type Day, daysBetween } from '@/lib/domain/quantity/day'
import type { Moment } from './types'

const MINUTES_PER_DAY = 1440

/** The day of a moment. */
export function dayOfMoment(moment: Moment): Day {
  return moment.slice(0, 10)
}

/** Minutes after midnight, or null where the moment is a day only. */
function minutesOf(moment: Moment): number | null {
  const match = /^.{10}[T ](\d{2}):(\d{2})/.exec(moment)
  return match ? Number(match[1]) * 60 + Number(match[2]) : null
}

/**
 * The least, the middle and the most hours from `from` to `to`. With both times of day the three are equal; without one,
 * it may have been any time of its day. The clock is local and unshifted: an hour of summer time is not allowed for.
 */
export function hoursBetween(from: Moment, to: Moment): { least: number; middle: number; most: number } {
  const days = daysBetween(dayOfMoment(from), dayOfMoment(to)) * MINUTES_PER_DAY
  const [a, b] = [minutesOf(from), minutesOf(to)]
  const least = (days + (b ?? 0) - (a ?? MINUTES_PER_DAY - 1)) / 60
  const most = (days + (b ?? MINUTES_PER_DAY - 1) - (a ?? 0)) / 60
  return { least: Math.max(0, least), middle: Math.max(0, (least + most) / 2), most: Math.max(0, most) }
}

/** The moment some hours later, to the minute, rounded down. Null where the moment has no time of day. */
export function addHours(moment: Moment, hours: number): Moment | null {
  const minutes = minutesOf(moment)
  if (minutes === null) return null
  const total = Math.floor(minutes + hours * 60)
  const days = Math.floor(total / MINUTES_PER_DAY)
  const rest = total - days * MINUTES_PER_DAY
  const two = (n: number): string => String(n).padStart(2, '0')
  return `${addDays(dayOfMoment(moment), days)}T${two(Math.floor(rest / 60))}:${two(rest % 60)}`
}
