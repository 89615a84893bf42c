import { addDays, type Day } from '@/lib/domain/quantity/day'
import { cheapestChance, type Forecast, LATE_OVER_EARLY } from './forecast'

/** Past this nobody plans. */
const HORIZON_DAYS = 15 * 365

/**
 * The days by which something has happened with a given chance, looking a step at a time from a day on.
 *
 * Shape   `chanceOn` the chance that it is so on the day so many days ahead; a chance that was once reached stays.
 * Answer  null where even the middle day lies more than fifteen years off.
 */
export function thresholdDays(
  from: Day,
  chanceOn: (days: number) => number,
  stepDays: number,
): Omit<Extract<Forecast, { kind: 'date' }>, 'kind' | 'why' | 'warnings'> | null {
  const chances = [0.1, cheapestChance(LATE_OVER_EARLY), 0.5, 0.9]
  const found: (number | null)[] = chances.map(() => null)
  for (let days = 0; days <= HORIZON_DAYS && found.includes(null); days += stepDays) {
    const chance = chanceOn(days)
    for (const [i, wanted] of chances.entries()) {
      if (found[i] === null && chance >= wanted) found[i] = days
    }
  }
  const [low, changeBy, on, high] = found
  if (on === null || on === undefined) return null
  const day = (days: number | null | undefined) => addDays(from, days ?? 0)
  return {
    on: day(on),
    low: day(low ?? on),
    changeBy: day(changeBy ?? on),
    high: high === null || high === undefined ? null : day(high),
  }
}
