import { addDays, type Day } from '@/lib/domain/quantity/day'
import { normalCdf } from '@/lib/domain/stats/special'
import type { Pace } from './pace'

/** When a part reaches its limit. */
export type Forecast =
  | {
      kind: 'date'
      on: Day
      /** Ends of the 80 % interval; `high` is null where it stays open. */
      low: Day
      high: Day | null
      /** The day that costs least, by the cost rule below; between `low` and `on`. */
      changeBy: Day
      why: string
      /** What a person should look at, besides the date. */
      warnings: string[]
    }
  | { kind: 'cannot-say'; why: string }

/**
 * How much dearer a day too late is than a day too early, unless the user says otherwise: short water, a burst part or
 * a second trip against a part thrown away half used. Common practice, no published source for the figure.
 */
export const LATE_OVER_EARLY = 3

/** Chance of being late that costs least when a late day costs so many early ones: the newsvendor's rule. */
export const cheapestChance = (lateOverEarly: number): number => 1 / (1 + lateOverEarly)

/** One value that the use at the limit may have, and how much of the belief stands on it. */
export type Weighted = { value: number; weight: number }

/** Past this nobody plans: an open end is told as open. */
const HORIZON_DAYS = 15 * 365
const BINS = 64

/**
 * Days after the last reading by which the limit is reached with a given chance: the use at which it is reached is
 * uncertain, and so is the pace of use.
 *
 * Shape   `limits` is the belief about the use (m³ or hours, counted as `usedSoFar` is) at which the limit is reached.
 * Answer  null beyond fifteen years.
 */
export function daysToLimit(
  limits: readonly Weighted[],
  usedSoFar: number,
  from: Day,
  pace: Pace,
  chances: readonly number[],
): (number | null)[] {
  const bins = binned(limits)
  const told = new Map<number, number>()
  const chanceBy = (days: number) => {
    const known = told.get(days)
    if (known !== undefined) return known
    const use = pace.ahead(from, days)
    const chance = bins.reduce(
      (sum, b) => sum + b.weight * passed(usedSoFar + use.mean, use.deviation, b.value),
      0,
    )
    told.set(days, chance)
    return chance
  }
  return chances.map((chance) => {
    if (chanceBy(HORIZON_DAYS) < chance) return null
    let low = 0
    let high = HORIZON_DAYS
    while (high - low > 0.5) {
      const middle = (low + high) / 2
      if (chanceBy(middle) < chance) low = middle
      else high = middle
    }
    return Math.round(high)
  })
}

/** The days of a forecast, or null where even the middle one lies beyond the horizon. */
export function forecastDays(
  limits: readonly Weighted[],
  usedSoFar: number,
  from: Day,
  pace: Pace,
): { on: Day; low: Day; high: Day | null; changeBy: Day } | null {
  const chances = [0.1, 0.5, 0.9, cheapestChance(LATE_OVER_EARLY)]
  const [low, on, high, changeBy] = daysToLimit(limits, usedSoFar, from, pace, chances)
  if (on === undefined || on === null) return null
  return {
    on: addDays(from, on),
    low: addDays(from, low ?? 0),
    changeBy: addDays(from, changeBy ?? on),
    high: high === undefined || high === null ? null : addDays(from, high),
  }
}

/** So many deviations away the chance is one or none to the seventh digit. */
const SURE = 5.2

function passed(use: number, deviation: number, limit: number): number {
  const away = (use - limit) / deviation
  // Most parts of a belief are passed or not beyond doubt: the sum is for those that are not.
  if (deviation > 0 && Math.abs(away) < SURE) return normalCdf(away)
  return use >= limit ? 1 : 0
}

/** The belief in at most 64 equal parts: dates do not need more. */
function binned(limits: readonly Weighted[]): Weighted[] {
  const sorted = [...limits].filter((l) => l.weight > 0).sort((a, b) => a.value - b.value)
  const total = sorted.reduce((sum, l) => sum + l.weight, 0)
  const bins: Weighted[] = []
  let weight = 0
  let sum = 0
  for (const limit of sorted) {
    weight += limit.weight
    sum += limit.weight * Math.min(limit.value, Number.MAX_VALUE / 1e6)
    if (weight >= total / BINS) {
      bins.push({ value: sum / weight, weight: weight / total })
      weight = 0
      sum = 0
    }
  }
  if (weight > 0) bins.push({ value: sum / weight, weight: weight / total })
  return bins
}

/** Mean and deviation of the logarithm under a weighted belief. */
export function logMoments(belief: readonly Weighted[]): { mean: number; deviation: number } {
  let total = 0
  let first = 0
  let second = 0
  for (const { value, weight } of belief) {
    const log = Math.log(value)
    total += weight
    first += weight * log
    second += weight * log * log
  }
  const mean = first / total
  return { mean, deviation: Math.sqrt(Math.max(0, second / total - mean * mean)) }
}
