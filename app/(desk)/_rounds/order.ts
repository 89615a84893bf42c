import {
  costAgainst,
  moveCost,
  moveWords,
  type OrderCost,
  orderWithLocks,
  type Timetable,
  timetable,
} from '@/lib/domain/place'
import type { RoundHead, RoundStop } from '@/lib/records/rounds'

/** Stops that a new reckoning leaves in place: locked by hand, or closed and past. */
const isHeld = (stop: RoundStop) => stop.locked || stop.outcome !== null

/** The reckoned order of a round's stops and what it costs against theirs; null where no yard is known. */
export function reckonedOrder(
  round: RoundHead,
  stops: readonly RoundStop[],
): { ids: string[]; cost: OrderCost } | null {
  const table = timetable(round, stops)
  if (!table) return null
  const now = table.routed.map((_, i) => i)
  const order = orderWithLocks(table.problem, now, new Set(now.filter((i) => held(table, i))))
  const routed = order.flatMap((i) => table.routed[i]?.id ?? [])
  return {
    ids: [...routed, ...table.unrouted.map((stop) => stop.id)],
    cost: costAgainst(table.problem, order, now),
  }
}

function held(table: Timetable<RoundStop>, index: number): boolean {
  const stop = table.routed[index]
  return stop !== undefined && isHeld(stop)
}

/** A place that a stop can be moved to, from 1, with what it would cost in words. */
export type Move = { to: number; cost: string }

/** Every move of one stop that is still to be visited, the places of closed stops left out; empty where it has no place. */
export function movesOf(table: Timetable<RoundStop>, stopId: string): Move[] {
  const from = table.routed.findIndex((stop) => stop.id === stopId)
  const stop = table.routed[from]
  if (!stop || stop.outcome !== null) return []
  const order = table.routed.map((_, i) => i)
  const labelOf = (id: string) => table.routed.find((one) => one.id === id)?.label ?? 'a stop'
  const closed = table.routed.filter((one) => one.outcome !== null).length
  return order
    .filter((to) => to !== from && to >= closed)
    .map((to) => ({ to: to + 1, cost: moveWords(moveCost(table.problem, order, from, to).cost, labelOf) }))
}
