/** The order of a day in which some stops keep their place. */
import { seededStream } from '@/lib/domain/stats'
import { orderRound, USUAL_SEED } from './order'
import { compareCost, costOf, flatten, type TourCost } from './tour'
import { type RoundProblem, requireProblem } from './types'

/** Fresh starts beside the reckoned one and its own; each is improved until nothing helps. */
const STARTS = 8
/** Stops walked through in trying orders, in all: keeps 40 stops well under a second. */
const WALKED_MAX = 2_000_000

type Places = { free: number[]; cost: TourCost }

/**
 * A good order in which the stops of `locked` stay at the places that `order` gives them; numbers of `problem.stops`,
 * as everywhere. Without locks it is `orderRound`'s. Never worse than `order` itself.
 *
 * Method  the free stops in the order of `orderRound`, in `order`'s own, and in some from a fixed seed; each improved
 *         by moving, swapping and turning round among the free places until nothing helps or enough was tried.
 * Throws  RangeError where `order` is no order of the stops.
 */
export function orderWithLocks(
  problem: RoundProblem,
  order: readonly number[],
  locked: ReadonlySet<number>,
): number[] {
  requireProblem(problem)
  requireOrder(problem, order)
  const reckoned = orderRound(problem).order
  const held = order.map((stop) => locked.has(stop))
  if (!held.includes(true)) return reckoned
  const flat = flatten(problem)
  let walked = 0
  const costOfFree = (free: readonly number[]) => {
    walked += order.length
    return costOf(flat, merged(order, held, free))
  }
  const goesOn = () => walked < WALKED_MAX
  const isFree = (stop: number) => !locked.has(stop)
  const own = order.filter(isFree)
  const dice = seededStream(USUAL_SEED)
  const starts = [own, reckoned.filter(isFree), ...Array.from({ length: STARTS }, () => shuffled(own, dice))]
  const [first, ...rest] = starts.map((free) => improved(free, costOfFree, goesOn))
  const best = rest.reduce((a, b) => (compareCost(b.cost, a.cost) < 0 ? b : a), first as Places)
  return merged(order, held, best.free).map((place) => place - 1)
}

/** The tour (places from 1) with the free stops filled in around those that are held. */
function merged(order: readonly number[], held: readonly boolean[], free: readonly number[]): number[] {
  let next = 0
  return order.map((stop, place) => (held[place] ? stop : (free[next++] ?? stop)) + 1)
}

type CostOf = (free: readonly number[]) => ReturnType<typeof costOf>

function improved(start: readonly number[], cost: CostOf, goesOn: () => boolean): Places {
  let best: Places = { free: [...start], cost: cost(start) }
  for (let better = true; better && goesOn(); ) {
    better = false
    for (const free of neighbours(best.free)) {
      if (!goesOn()) return best
      const tried = cost(free)
      if (compareCost(tried, best.cost) >= 0) continue
      best = { free, cost: tried }
      better = true
      break
    }
  }
  return best
}

/** Every order that one move, one swap or one stretch turned round makes. */
function* neighbours(free: readonly number[]): Generator<number[]> {
  for (let i = 0; i < free.length; i++) {
    for (let j = 0; j < free.length; j++) {
      if (i === j) continue
      const rest = free.filter((_, k) => k !== i)
      const stop = free[i] ?? 0
      yield [...rest.slice(0, j), stop, ...rest.slice(j)]
      if (j <= i + 1) continue
      yield free.map((own, k) => (k === i ? (free[j] ?? own) : k === j ? stop : own))
      yield [...free.slice(0, i), ...free.slice(i, j + 1).reverse(), ...free.slice(j + 1)]
    }
  }
}

function shuffled(free: readonly number[], dice: () => number): number[] {
  const mixed = [...free]
  for (let i = mixed.length - 1; i > 0; i--) {
    const j = Math.floor(dice() * (i + 1))
    const held = mixed[i] ?? 0
    mixed[i] = mixed[j] ?? 0
    mixed[j] = held
  }
  return mixed
}

function requireOrder({ stops }: RoundProblem, order: readonly number[]): void {
  const seen = new Set(order)
  if (order.length !== stops.length || seen.size !== stops.length || order.some((i) => !stops[i])) {
    throw new RangeError(`[${order.join(', ')}] is no order of ${stops.length} stops`)
  }
}
