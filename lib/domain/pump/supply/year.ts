import { addDays, type Day, monthOf } from '@/lib/domain/quantity/day'
import { demandByHour, type WaterUse } from './demand'
import { type Drive, pumpedBySun, requireDrive } from './drive'

export const HOUR_S = 3600
export const YEAR_DAYS = 365

export type SupplyPlan = {
  from: Day
  drive: Drive
  /** Sun on the panels for each hour, W/m², at least as long as the year asked for; not used by mains. */
  sunWPerM2: Float64Array | null
  /** What the well can give and go on giving, m³/s, in each month, January first. */
  wellM3PerS: readonly number[]
  /** Months (1 to 12) in which the pump cannot lift the water at all. */
  noLiftMonths: readonly number[]
  /** Days, both included, on which the pump stands still: brushes worn out, waiting for a visit. */
  pumpOff: readonly { from: Day; to: Day }[]
  /** What the tank holds that can be used, m³. */
  tankM3: number
  /** What is in it at the start, m³. */
  startM3: number
  uses: readonly WaterUse[]
}

/** One day of the year, all in m³. */
export type SupplyDay = {
  on: Day
  demandM3: number
  deliveredM3: number
  pumpedM3: number
  /** In the tank at the day's end, and its lowest hour. */
  tankM3: number
  lowestM3: number
}

export type SupplyYear = {
  days: SupplyDay[]
  /** By hour, m³: what was asked for, what came, what was pumped into the tank, what it held at the hour's end. */
  demand: Float64Array
  delivered: Float64Array
  pumped: Float64Array
  tank: Float64Array
}

/**
 * A year of water by the hour.
 *
 * In each hour the pump gives the least of what its drive gives, what the well gives, and what there is room for (a
 * float switch stops it: nothing runs over); demand is met from the tank and from what comes in.
 * Left out  the water that stands in the casing (a pump may draw faster than the well for a while, over a day it
 *           cannot), leaks, rain, evaporation.
 * Balance   tank at the end = tank before + pumped − delivered, in every hour, to rounding.
 * Throws    RangeError for a tank, start, well or drive that cannot be, or too little sun.
 */
export function simulateYear(plan: SupplyPlan, days = YEAR_DAYS): SupplyYear {
  requirePlan(plan, days)
  const hours = 24 * days
  const year: SupplyYear = {
    days: [],
    demand: new Float64Array(hours),
    delivered: new Float64Array(hours),
    pumped: new Float64Array(hours),
    tank: new Float64Array(hours),
  }
  const demand = demandByHour(plan.uses)
  let tankM3 = plan.startM3
  for (let d = 0; d < days; d++) {
    const on = addDays(plan.from, d)
    const month = monthOf(on)
    const stands =
      plan.noLiftMonths.includes(month) || plan.pumpOff.some((off) => off.from <= on && on <= off.to)
    const wellM3 = stands ? 0 : (plan.wellM3PerS[month - 1] ?? 0) * HOUR_S
    const today: SupplyDay = { on, demandM3: 0, deliveredM3: 0, pumpedM3: 0, tankM3, lowestM3: tankM3 }
    for (let hour = 0; hour < 24; hour++) {
      const i = 24 * d + hour
      const asked = demand[month - 1]?.[hour] ?? 0
      const offered = Math.min(wellM3, pumpedBySun(plan.drive, plan.sunWPerM2?.[i] ?? 0, hour) * HOUR_S)
      const delivered = Math.min(asked, tankM3 + offered)
      const pumped = Math.min(offered, Math.max(0, plan.tankM3 - tankM3) + delivered)
      tankM3 = tankM3 + pumped - delivered
      year.demand[i] = asked
      year.delivered[i] = delivered
      year.pumped[i] = pumped
      year.tank[i] = tankM3
      today.demandM3 += asked
      today.deliveredM3 += delivered
      today.pumpedM3 += pumped
      today.lowestM3 = Math.min(today.lowestM3, tankM3)
    }
    year.days.push({ ...today, tankM3 })
  }
  return year
}

function requirePlan(plan: SupplyPlan, days: number): void {
  if (!(plan.tankM3 >= 0) || !(plan.startM3 >= 0 && plan.startM3 <= plan.tankM3)) {
    throw new RangeError(`${plan.startM3} m³ in a tank of ${plan.tankM3} m³`)
  }
  if (
    plan.wellM3PerS.length !== 12 ||
    plan.wellM3PerS.some((rate) => !(rate >= 0 && Number.isFinite(rate)))
  ) {
    throw new RangeError('the well needs a rate for each of twelve months')
  }
  requireDrive(plan.drive)
  if (plan.drive.kind !== 'mains' && (plan.sunWPerM2?.length ?? 0) < 24 * days) {
    throw new RangeError(`sun for ${plan.sunWPerM2?.length ?? 0} hours of ${24 * days}`)
  }
}
