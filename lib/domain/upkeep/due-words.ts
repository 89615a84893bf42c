import { type Day, daysBetween } from '@/lib/domain/quantity'
import type { Basis, Consequence } from './types'

/** Beyond this, days are no longer counted by anybody. */
const DAYS_COUNTED = 60
const DAYS_PER_MONTH = 30.44

/**
 * How far a due date is from today, in words: "today", "in 3 days", "12 days past", "in about 4 months".
 * Throws  RangeError on text that is no day.
 */
export function sayDistance(due: Day, today: Day): string {
  const days = daysBetween(today, due)
  if (days === 0) return 'today'
  if (days === 1) return 'tomorrow'
  const size = Math.abs(days)
  const amount = size <= DAYS_COUNTED ? plural(size, 'day') : `about ${monthsOrYears(size)}`
  return days > 0 ? `in ${amount}` : `${amount} past`
}

function monthsOrYears(days: number): string {
  const months = Math.round(days / DAYS_PER_MONTH)
  if (months < 24) return plural(months, 'month')
  const halfYears = Math.round(months / 6) / 2
  return plural(halfYears, 'year')
}

const plural = (n: number, what: string) => `${n} ${what}${n === 1 ? '' : 's'}`

/** The limit that a due date rests on, as a word on screen. */
export const BASIS_WORDS: Record<Basis, string> = {
  months: 'months',
  hours: 'run hours',
  volume: 'volume pumped',
  condition: 'measured condition',
  'closed-season': 'closed season',
}

/** What suffers when a duty is left undone, as a word on screen. */
export const CONSEQUENCE_WORDS: Record<Consequence, string> = {
  health: 'Health',
  supply: 'Supply',
  wear: 'Wear',
}
