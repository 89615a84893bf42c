import type { Day } from '@/lib/domain/quantity/day'
import { median } from '@/lib/domain/stats'
import { isShort } from './reserve'
import type { SupplyYear } from './year'

const WEEK_DAYS = 7

/** A week of the tank, m³: its lowest hour, the middle of its hours, its highest. */
export type TankWeek = { from: Day; lowM3: number; medianM3: number; highM3: number; shortDays: number }

/** The year by weeks from its first day; the odd days at its end make a short week of their own. */
export function tankWeeks(year: SupplyYear): TankWeek[] {
  const weeks: TankWeek[] = []
  for (let first = 0; first < year.days.length; first += WEEK_DAYS) {
    const days = year.days.slice(first, first + WEEK_DAYS)
    const hours = Array.from(year.tank.subarray(24 * first, 24 * (first + days.length)))
    const [start] = days
    if (!start || hours.length === 0) continue
    weeks.push({
      from: start.on,
      lowM3: Math.min(...hours),
      medianM3: median(hours),
      highM3: Math.max(...hours),
      shortDays: days.filter(isShort).length,
    })
  }
  return weeks
}
