/** What the human's order costs more than the reckoned one. */
import { schedule } from './schedule'
import { LEAST_S } from './tour'
import type { RoundProblem, Schedule } from './types'

/** Differences to another order: positive is worse. `newlyLate` are stops that were in time before. */
export type OrderCost = {
  travelS: number
  homeS: number
  lateS: number
  newlyLate: { id: string; byS: number }[]
}

/** What one stop's place in the order costs: what would be saved by moving it to `betterAt`, the rest unchanged. */
export type PlaceCost = { id: string; travelS: number; lateS: number; betterAt: number }

/** What `order` costs more than `than`. Throws RangeError on numbers that are no stops. */
export function costAgainst(
  problem: RoundProblem,
  order: readonly number[],
  than: readonly number[],
): OrderCost {
  return difference(schedule(problem, order), schedule(problem, than))
}

/**
 * What it costs to move the stop at place `from` of an order to place `to` (both counted from 0).
 * Throws  RangeError on a place outside the order.
 */
export function moveCost(
  problem: RoundProblem,
  order: readonly number[],
  from: number,
  to: number,
): { order: number[]; cost: OrderCost } {
  const moved = moveStop(order, from, to)
  return { order: moved, cost: costAgainst(problem, moved, order) }
}

/** The order with one stop moved. */
export function moveStop(order: readonly number[], from: number, to: number): number[] {
  const stop = order[from]
  if (stop === undefined || !(to >= 0 && to < order.length)) {
    throw new RangeError(`no move from ${from} to ${to} in an order of ${order.length}`)
  }
  const rest = order.filter((_, k) => k !== from)
  return [...rest.slice(0, to), stop, ...rest.slice(to)]
}

/**
 * For every stop of an order, in its order, what its place there costs: the saving of the best single move of it.
 * Zero where no other place is better, so that a human sees which of their wishes is dear.
 * Cost    n³.
 */
export function costPerStop(problem: RoundProblem, order: readonly number[]): PlaceCost[] {
  const now = schedule(problem, order)
  return order.map((index, from) => {
    const id = problem.stops[index]?.id ?? ''
    let best: PlaceCost = { id, travelS: 0, lateS: 0, betterAt: from }
    for (let to = 0; to < order.length; to++) {
      if (to === from) continue
      const then = schedule(problem, moveStop(order, from, to))
      const saved = { id, travelS: now.travelS - then.travelS, lateS: now.lateS - then.lateS, betterAt: to }
      if (saves(saved, best)) best = saved
    }
    return best
  })
}

const saves = (a: PlaceCost, b: PlaceCost) =>
  Math.abs(a.lateS - b.lateS) > LEAST_S ? a.lateS > b.lateS : a.travelS > b.travelS + LEAST_S

function difference(now: Schedule, before: Schedule): OrderCost {
  const wasLate = new Map(before.stops.map((s) => [s.id, s.lateS]))
  return {
    travelS: now.travelS - before.travelS,
    homeS: now.homeS - before.homeS,
    lateS: now.lateS - before.lateS,
    newlyLate: now.stops
      .filter((s) => s.lateS > LEAST_S && (wasLate.get(s.id) ?? 0) <= LEAST_S)
      .map((s) => ({ id: s.id, byS: s.lateS })),
  }
}
