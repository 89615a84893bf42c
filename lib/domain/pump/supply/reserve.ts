import type { Day } from '@/lib/domain/quantity/day'
import { monthOf } from '@/lib/domain/quantity/day'
import type { SupplyDay, SupplyPlan, SupplyYear } from './year'

/** Less missing in a day than this, a litre, is rounding and habit. */
const SHORT_M3 = 0.001

export type SupplyResult = {
  firstShortDay: Day | null
  shortDays: number
  /** Hours in which less came than was asked for. */
  shortHours: number
  missingM3: number
  /** Share of the year's demand that was met, 1 where nothing was asked for. */
  metShare: number
  /** Days that what is in the tank would last with no water coming in: the least of the year, and when. */
  leastReserve: { days: number; on: Day } | null
  /** For each month of the year how long a full tank lasts with no water coming in, days; null without demand. */
  fullTankDays: (number | null)[]
  /** Months (1 to 12) with a short day, in the order in which they come. */
  shortMonths: number[]
}

/** What a simulated year says. `tankM3` is the tank's usable volume. Units m³ and days. */
export function supplyResult(year: SupplyYear, tankM3: number): SupplyResult {
  const short = year.days.filter(isShort)
  const asked = sum(year.days.map((day) => day.demandM3))
  const missingM3 = sum(short.map((day) => day.demandM3 - day.deliveredM3))
  return {
    firstShortDay: short[0]?.on ?? null,
    shortDays: short.length,
    shortHours: year.demand.reduce(
      (n, asked, i) => n + (isShortHour(asked, year.delivered[i] ?? 0) ? 1 : 0),
      0,
    ),
    missingM3,
    metShare: asked > 0 ? sum(year.days.map((day) => day.deliveredM3)) / asked : 1,
    leastReserve: leastReserve(year.days),
    fullTankDays: Array.from({ length: 12 }, (_, month) => {
      const day = year.days.find((d) => monthOf(d.on) === month + 1)
      return day && day.demandM3 > 0 ? tankM3 / day.demandM3 : null
    }),
    shortMonths: [...new Set(short.map((day) => monthOf(day.on)))],
  }
}

/** A hundredth less than asked for is rounding. */
const isShortHour = (asked: number, delivered: number): boolean => asked - delivered > 0.01 * asked

/** Whether a day of the year went without some of the water asked for. */
export const isShort = (day: SupplyDay): boolean => day.demandM3 - day.deliveredM3 > SHORT_M3

const sum = (values: readonly number[]): number => values.reduce((all, value) => all + value, 0)

/** The day at whose end the tank would last least long on the demand of the days after it; the last days are left out. */
function leastReserve(days: readonly SupplyDay[]): SupplyResult['leastReserve'] {
  let least: SupplyResult['leastReserve'] = null
  // Two hands: the days that one tankful lasts never end before those of the day before it.
  let end = 0
  let ahead = 0
  for (const [i, day] of days.entries()) {
    if (end < i + 1) {
      end = i + 1
      ahead = 0
    }
    let next = days[end]
    while (next && ahead + next.demandM3 <= day.tankM3) {
      ahead += next.demandM3
      end += 1
      next = days[end]
    }
    if (!next) break
    const left = next.demandM3 > 0 ? (day.tankM3 - ahead) / next.demandM3 : 0
    const lasts = end - (i + 1) + Math.max(0, left)
    if (least === null || lasts < least.days) least = { days: lasts, on: day.on }
    ahead -= days[i + 1]?.demandM3 ?? 0
  }
  return least
}

/**
 * Hours that a tank takes to fill from empty while nothing is drawn: at the lesser of what well and pump give.
 * Throws  RangeError unless both rates are above zero.
 */
export function fillHours(tankM3: number, wellM3PerS: number, pumpM3PerS = Number.POSITIVE_INFINITY): number {
  const rate = Math.min(wellM3PerS, pumpM3PerS)
  if (!(rate > 0)) throw new RangeError(`a tank filled at ${rate} m³/s`)
  return tankM3 / rate / 3600
}

/** The year in one plain sentence; figures in the caller's units stand beside it. */
export function saySupply(result: SupplyResult, plan: Pick<SupplyPlan, 'from'>): string {
  if (result.firstShortDay === null) {
    const least = result.leastReserve
    const reserve =
      least === null
        ? ''
        : ` On the tightest day, ${least.on}, what is in the tank would last ${least.days.toFixed(1)} days with no water coming in.`
    return `In a usual year from ${plan.from} the tank is never short.${reserve}`
  }
  const share = result.metShare > 0.9995 ? 'nearly all' : `${(100 * result.metShare).toFixed(1)} %`
  const comes = `${share} of the water asked for comes.`
  return result.shortDays === 1
    ? `In a usual year from ${plan.from} there is one short day, ${result.firstShortDay}; ${comes}`
    : `In a usual year from ${plan.from} there are ${result.shortDays} short days, the first on ${result.firstShortDay}; ${comes}`
}
