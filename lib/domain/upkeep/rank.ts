import { addDays, type Day } from '@/lib/domain/quantity'
import type { Consequence } from './types'

/** How near a due date is. 'unknown' where there is none: that is a thing to mend, not a thing to wait for. */
export type Urgency = 'past' | 'week' | 'month' | 'later' | 'unknown'

const RANKS: Record<Consequence, 1 | 2 | 3> = { health: 1, supply: 2, wear: 3 }
const WEEK_DAYS = 7
const MONTH_DAYS = 30

/** 1 for health, 2 for supply, 3 for wear: what is past due is listed in this order, then by how far past. */
export function consequenceRank(consequence: Consequence): 1 | 2 | 3 {
  return RANKS[consequence]
}

/**
 * How near a due date is to today: 'past' from the day after it, 'week' from today to 7 days ahead, 'month' to 30
 * days ahead, 'later' beyond, 'unknown' without a date.
 * Throws  RangeError when `today` is no day.
 */
export function urgency(due: Day | null, today: Day): Urgency {
  if (due === null) return 'unknown'
  if (due < today) return 'past'
  if (due <= addDays(today, WEEK_DAYS)) return 'week'
  if (due <= addDays(today, MONTH_DAYS)) return 'month'
  return 'later'
}

/**
 * The consequence that ranks so.
 * Throws  RangeError on a number that consequenceRank never gives.
 */
export function consequenceOfRank(rank: number): Consequence {
  if (rank === 1) return 'health'
  if (rank === 2) return 'supply'
  if (rank === 3) return 'wear'
  throw new RangeError(`${rank} is not the rank of a consequence`)
}
