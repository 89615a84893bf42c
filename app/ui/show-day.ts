import { type Day, formatDay } from '@/lib/domain/quantity/day'
import type { UnitSystem } from '@/lib/domain/quantity/format'

/** A day in words, "Mar 27, 2026" or "27 Mar 2026": who reads feet reads the month first. */
export function showDay(day: Day, units: UnitSystem): string {
  return formatDay(day, 'short', units === 'us' ? 'en-US' : 'en-GB')
}
