/** A round made flat for searching: numbers in arrays, the yard as place 0, a tour as the places in order after it. */
import type { RoundProblem } from './types'

export type FlatProblem = {
  size: number
  /** Time from i to j, s. */
  time: (i: number, j: number) => number
  service: Float64Array
  opens: Float64Array
  closes: Float64Array
  startS: number
  endS: number
  /** False where no owner minds the hour: the least driving is then home first too, and the end of the day is left aside. */
  hours: boolean
}

/** What a tour costs, in order of weight: lateness first, then driving, then when the truck is home. */
export type TourCost = { lateS: number; travelS: number; homeS: number }

/** Differences below this are rounding. */
export const LEAST_S = 1e-6

export function flatten({ travelS, stops, startS, endS }: RoundProblem): FlatProblem {
  const size = stops.length + 1
  const times = Float64Array.from(travelS.flat())
  const of = (pick: (i: number) => number) => Float64Array.from({ length: size }, (_, i) => pick(i))
  const opens = of((i) => stops[i - 1]?.window.notBeforeS ?? Number.NEGATIVE_INFINITY)
  const closes = of((i) => stops[i - 1]?.window.doneByS ?? Number.POSITIVE_INFINITY)
  const bounded = stops.some((s) => s.window.notBeforeS !== null || s.window.doneByS !== null)
  return {
    size,
    time: (i, j) => times[i * size + j] ?? 0,
    service: of((i) => stops[i - 1]?.serviceS ?? 0),
    opens,
    closes,
    startS,
    endS: bounded && endS !== null ? endS : Number.POSITIVE_INFINITY,
    hours: bounded,
  }
}

/** The cost of a tour; `tour` holds every place but the yard. */
export function costOf(flat: FlatProblem, tour: ArrayLike<number>): TourCost {
  let at = 0
  let clock = flat.startS
  let travelS = 0
  let lateS = 0
  for (let k = 0; k < tour.length; k++) {
    const next = tour[k] ?? 0
    const leg = flat.time(at, next)
    travelS += leg
    clock = Math.max(clock + leg, flat.opens[next] ?? 0) + (flat.service[next] ?? 0)
    lateS += Math.max(0, clock - (flat.closes[next] ?? 0))
    at = next
  }
  const leg = flat.time(at, 0)
  const homeS = clock + leg
  return { lateS: lateS + Math.max(0, homeS - flat.endS), travelS: travelS + leg, homeS }
}

/** Below 0 where `a` is better than `b`. */
export function compareCost(a: TourCost, b: TourCost): number {
  if (Math.abs(a.lateS - b.lateS) > LEAST_S) return a.lateS - b.lateS
  if (Math.abs(a.travelS - b.travelS) > LEAST_S) return a.travelS - b.travelS
  return Math.abs(a.homeS - b.homeS) > LEAST_S ? a.homeS - b.homeS : 0
}
