/** In what order to visit the stops of a day. */
import type { Day } from '@/lib/domain/quantity'
import { EVERY_ORDER_STOPS, EXACT_STOPS, leastDriving, leastDrivingInTime, leastLate } from './exact'
import { schedule } from './schedule'
import { searchTour } from './search'
import { costOf, flatten, LEAST_S } from './tour'
import { type RoundProblem, requireProblem, type Schedule } from './types'

/**
 * What cannot be kept. `alone` is true where the stop would be late even as the only one of the day: its hours and its
 * distance do not go together, and no order helps.
 * 'other-day' is a stop on a day of the week that its owner does not wish.
 */
export type Conflict =
  | { kind: 'late'; id: string; byS: number; alone: boolean }
  | { kind: 'home-late'; byS: number }
  | { kind: 'other-day'; id: string; day: Day; onlyOn: string | null }

/** `order` holds numbers of `problem.stops`. 'sure' where nothing shorter exists, 'good' where a search found it. */
export type OrderedRound = {
  order: number[]
  schedule: Schedule
  conflicts: Conflict[]
  method: 'sure' | 'good'
}

export const USUAL_SEED = 1

/**
 * The order with the least lateness, then the least driving.
 *
 * Shape   hours of owners and the end of the day are kept where any order keeps them, as far as the search can tell;
 *         what is not kept is named in `conflicts`, with its lateness.
 * Method  dynamic programming up to EXACT_STOPS stops, and with hours as far as they narrow things down; beyond, a
 *         seeded local search. The same input gives the same answer.
 * Throws  RangeError on times that do not fit the stops.
 */
export function orderRound(problem: RoundProblem, seed = USUAL_SEED): OrderedRound {
  requireProblem(problem)
  const flat = flatten(problem)
  const short = flat.size - 1 <= EXACT_STOPS
  if (short) {
    const tour = leastDriving(flat)
    // Driven the other way round it is as long, and may suit the hours better.
    const both = [tour, [...tour].reverse()].map((t) => ({ t, cost: costOf(flat, t) }))
    const kept = both
      .filter(({ cost }) => cost.lateS <= LEAST_S)
      .sort((a, b) => a.cost.homeS - b.cost.homeS)[0]
    if (kept) return answer(problem, kept.t, 'sure')
  }
  if (flat.hours) {
    const inTime = leastDrivingInTime(flat)
    if (inTime.kind === 'best') return answer(problem, inTime.tour, 'sure')
    if (flat.size - 1 <= EVERY_ORDER_STOPS) return answer(problem, leastLate(flat), 'sure')
  }
  return answer(problem, searchTour(flat, seed), 'good')
}

function answer(problem: RoundProblem, tour: readonly number[], method: 'sure' | 'good'): OrderedRound {
  const order = tour.map((place) => place - 1)
  const planned = schedule(problem, order)
  return { order, schedule: planned, conflicts: conflictsOf(problem, planned), method }
}

/** Every stop that would be late in a schedule, and the return. */
export function conflictsOf(problem: RoundProblem, planned: Schedule): Conflict[] {
  const late = planned.stops
    .filter((stop) => stop.lateS > LEAST_S)
    .map((stop): Conflict => {
      const index = problem.stops.findIndex((s) => s.id === stop.id)
      const only = schedule(problem, [index]).stops[0]
      return { kind: 'late', id: stop.id, byS: stop.lateS, alone: (only?.lateS ?? 0) > LEAST_S }
    })
  return planned.homeLateS > LEAST_S ? [...late, { kind: 'home-late', byS: planned.homeLateS }] : late
}
