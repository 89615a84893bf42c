/** Days being filled: which wells, in what order, and whether one more fits. */
import type { LatLon } from '../geodesy'
import type { WellDue, WorkDay } from './due-types'
import { orderRound } from './order'
import { compareCost, costOf, type FlatProblem, LEAST_S } from './tour'
import { type Driving, travelTimes } from './travel'
import type { RoundProblem, Stop } from './types'

/** One day: the wells on it (their numbers, from 1) in order. */
export type DayPlan = { workDay: WorkDay; tour: number[] }

/** A place found for a well: which day, and the order of that day with it. */
export type Fit = { day: DayPlan; tour: number[]; extraS: number }

/**
 * The ground of a proposal. Wells count from 1 in the order given, the yard is 0; `service` grows as work is added.
 */
export type Ground = {
  wells: readonly WellDue[]
  travelS: number[][]
  service: Float64Array
  opens: Float64Array
  closes: Float64Array
}

export function layGround(wells: readonly WellDue[], yard: LatLon, driving: Driving): Ground {
  const of = (pick: (well: WellDue) => number) => Float64Array.from([0, ...wells.map(pick)])
  return {
    wells,
    // A well without a coordinate is never put on a day, so its place in the matrix does not matter.
    travelS: travelTimes([yard, ...wells.map((w) => w.at ?? yard)], driving),
    service: new Float64Array(wells.length + 1),
    opens: of((w) => w.wishes.window.notBeforeS ?? Number.NEGATIVE_INFINITY),
    closes: of((w) => w.wishes.window.doneByS ?? Number.POSITIVE_INFINITY),
  }
}

function flatOf(ground: Ground, { startS, endS }: WorkDay): FlatProblem {
  const { travelS, service, opens, closes } = ground
  return {
    size: travelS.length,
    time: (i, j) => travelS[i]?.[j] ?? 0,
    service,
    opens,
    closes,
    startS,
    endS,
    hours: true,
  }
}

/** True where nobody is late and the truck is home in time. */
export function isKept(ground: Ground, day: DayPlan, tour: readonly number[]): boolean {
  return costOf(flatOf(ground, day.workDay), tour).lateS <= LEAST_S
}

/** The cheapest place for a well among the days, with the work it would have there; null where it fits nowhere. */
export function cheapestFit(ground: Ground, days: readonly DayPlan[], well: number): Fit | null {
  let best: Fit | null = null
  for (const day of days) {
    const flat = flatOf(ground, day.workDay)
    const now = costOf(flat, day.tour)
    for (let k = 0; k <= day.tour.length; k++) {
      const tour = [...day.tour.slice(0, k), well, ...day.tour.slice(k)]
      const cost = costOf(flat, tour)
      if (cost.lateS > LEAST_S) continue
      const extraS = cost.travelS - now.travelS
      if (!best || extraS < best.extraS - LEAST_S) best = { day, tour, extraS }
    }
  }
  return best
}

/** Puts each day in its best order, where that is better than the one it has. True where any day changed. */
export function tidy(ground: Ground, days: readonly DayPlan[]): boolean {
  let changed = false
  for (const day of days) {
    const flat = flatOf(ground, day.workDay)
    const tour = bestOrder(ground, day.workDay, day.tour)
    if (compareCost(costOf(flat, tour), costOf(flat, day.tour)) >= 0) continue
    day.tour = tour
    changed = true
  }
  return changed
}

/** The wells of a tour in their best order. */
function bestOrder(ground: Ground, workDay: WorkDay, tour: readonly number[]): number[] {
  return orderRound(asProblem(ground, workDay, tour)).order.flatMap((i) => tour[i] ?? [])
}

/** A day as a problem of its own, its stops in the order of `tour`. */
export function asProblem(ground: Ground, { startS, endS }: WorkDay, tour: readonly number[]): RoundProblem {
  const places = [0, ...tour]
  const stops = tour.flatMap((place): Stop[] => {
    const well = ground.wells[place - 1]
    return well ? [{ id: well.id, serviceS: ground.service[place] ?? 0, window: well.wishes.window }] : []
  })
  const travelS = places.map((i) => places.map((j) => ground.travelS[i]?.[j] ?? 0))
  return { travelS, stops, startS, endS }
}
