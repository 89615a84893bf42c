/** A day with its stops in a given order. */
import type { RoundProblem, Schedule, Stop, StopTimes } from './types'

/**
 * When the truck is where, with the stops in `order` (numbers of `problem.stops`, from 0).
 *
 * Method  the truck leaves at once, waits where the owner wants nobody yet, and never skips: what cannot be in time
 *         is late, and says by how much.
 * Throws  RangeError on a number that is no stop.
 */
export function schedule(problem: RoundProblem, order: readonly number[]): Schedule {
  const { travelS, stops, startS, endS } = problem
  let at = 0
  let clock = startS
  const times: StopTimes[] = []
  for (const index of order) {
    const stop = stops[index]
    if (!stop) throw new RangeError(`there is no stop ${index} of ${stops.length}`)
    const next = stopTimes(stop, clock, travelS[at]?.[index + 1] ?? 0)
    times.push(next)
    clock = next.leaveS
    at = index + 1
  }
  const homeward = travelS[at]?.[0] ?? 0
  const homeS = clock + homeward
  const homeLateS = endS === null ? 0 : Math.max(0, homeS - endS)
  const sum = (of: (t: StopTimes) => number) => times.reduce((total, t) => total + of(t), 0)
  return {
    stops: times,
    travelS: sum((t) => t.travelS) + homeward,
    waitS: sum((t) => t.waitS),
    homeS,
    homeLateS,
    lateS: sum((t) => t.lateS) + homeLateS,
  }
}

function stopTimes({ id, serviceS, window }: Stop, clock: number, travelS: number): StopTimes {
  const arriveS = clock + travelS
  const beginS = Math.max(arriveS, window.notBeforeS ?? arriveS)
  const leaveS = beginS + serviceS
  const lateS = window.doneByS === null ? 0 : Math.max(0, leaveS - window.doneByS)
  return { id, travelS, arriveS, waitS: beginS - arriveS, beginS, leaveS, lateS }
}
