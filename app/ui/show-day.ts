import type { Day } from '@/lib/domain/quantity/day'
import { dayFor, type UnitSystem } from '@/lib/domain/quantity/format'

/** A day in words, "Mar 27, 2026" or "27 Mar 2026": who reads feet reads the month first. */
export const showDay = (day: Day, units: UnitSystem): string => dayFor(day, units)
