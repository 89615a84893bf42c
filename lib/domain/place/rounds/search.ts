/** A good order for more stops than can be tried out: local moves, shaken and tried again, from a fixed seed. */
import { seededStream } from '@/lib/domain/stats'
import { compareCost, costOf, type FlatProblem, LEAST_S, type TourCost } from './tour'

/** Shakes without a gain before the search gives up. */
const PATIENCE = 120
const SHAKES_MAX = 400
const SEGMENT_MAX = 3
/** Stops walked through in timing moves, in all: keeps a round of 40 stops with hours well under a second. */
const WALKED_MAX = 6_000_000

type Tour = { places: number[]; cost: TourCost }

/** A problem with a count of the stops walked through so far. */
type Search = { flat: FlatProblem; walked: number }

/**
 * The best tour that the search comes upon; the same for the same seed.
 *
 * Method  cheapest insertion, then 2-opt and Or-opt (segments of up to three, either way round) until neither helps,
 *         then a double bridge over a short stretch and again; the best is kept.
 * Source  Croes 1958 (2-opt); Or 1976 (Or-opt); Martin, Otto & Felten 1991 (double bridge).
 * Cost    about n² moves a pass. Hours make a move cost n, but only those that would shorten the driving are timed.
 */
export function searchTour(flat: FlatProblem, seed: number): number[] {
  const dice = seededStream(seed)
  const search: Search = { flat, walked: 0 }
  let best = improved(search, insertCheapest(flat))
  let current = best
  let idle = 0
  for (let shake = 0; shake < SHAKES_MAX && idle < PATIENCE && goesOn(search); shake++) {
    const next = improved(search, shaken(current.places, dice))
    const against = compareCost(next.cost, current.cost)
    if (against <= 0) current = next
    if (compareCost(next.cost, best.cost) < 0) {
      best = next
      idle = 0
    } else idle++
  }
  return best.places
}

/** Shaking needs four stops to change anything; the walk is bounded. */
const goesOn = ({ flat, walked }: Search) => flat.size > 4 && walked < WALKED_MAX

/** Takes the stops by their closing hour and puts each where it costs least. */
function insertCheapest(flat: FlatProblem): number[] {
  const places = Array.from({ length: flat.size - 1 }, (_, i) => i + 1)
  if (flat.hours) places.sort((a, b) => (flat.closes[a] ?? 0) - (flat.closes[b] ?? 0) || a - b)
  let tour: number[] = []
  for (const place of places) {
    let best: Tour | null = null
    for (let k = 0; k <= tour.length; k++) {
      const tried = [...tour.slice(0, k), place, ...tour.slice(k)]
      const cost = costOf(flat, tried)
      if (!best || compareCost(cost, best.cost) < 0) best = { places: tried, cost }
    }
    tour = best?.places ?? [place]
  }
  return tour
}

function improved(search: Search, start: readonly number[]): Tour {
  let tour: Tour = { places: [...start], cost: costOf(search.flat, start) }
  for (;;) {
    const next = orOptPass(search, twoOptPass(search, tour))
    if (next === tour || search.walked > WALKED_MAX) return next
    tour = next
  }
}

/** Whether a move that saves `gainS` of driving is worth timing: driving is known at once, hours cost a walk. */
const worthTrying = (tour: Tour, gainS: number) => gainS > LEAST_S || tour.cost.lateS > LEAST_S

function better(search: Search, tour: Tour, places: number[]): Tour {
  search.walked += places.length
  const cost = costOf(search.flat, places)
  return compareCost(cost, tour.cost) < 0 ? { places, cost } : tour
}

/** Turns round every stretch that is better driven the other way. The same tour where there is none. */
function twoOptPass(search: Search, start: Tour): Tour {
  const { flat } = search
  let tour = start
  const length = tour.places.length
  for (let i = 0; i < length - 1; i++) {
    for (let j = i + 1; j < length; j++) {
      const { places } = tour
      const before = places[i - 1] ?? 0
      const first = places[i] ?? 0
      const last = places[j] ?? 0
      const after = places[j + 1] ?? 0
      const gainS =
        flat.time(before, first) + flat.time(last, after) - flat.time(before, last) - flat.time(first, after)
      if (!worthTrying(tour, gainS)) continue
      const turned = [...places.slice(0, i), ...places.slice(i, j + 1).reverse(), ...places.slice(j + 1)]
      tour = better(search, tour, turned)
    }
  }
  return tour
}

/** Moves every short segment to where it is better off, either way round. The same tour where there is none. */
function orOptPass(search: Search, start: Tour): Tour {
  let tour = start
  const stops = tour.places.length
  for (let length = 1; length <= Math.min(SEGMENT_MAX, stops - 1); length++) {
    for (let i = 0; i + length <= stops; i++) tour = moveSegment(search, tour, i, length)
  }
  return tour
}

/** The tour with the segment at `i` where it saves first; the same tour where it is well placed. */
function moveSegment(search: Search, tour: Tour, i: number, length: number): Tour {
  const { flat } = search
  const { places } = tour
  const segment = places.slice(i, i + length)
  const rest = [...places.slice(0, i), ...places.slice(i + length)]
  const first = segment[0] ?? 0
  const last = segment.at(-1) ?? 0
  const left = rest[i - 1] ?? 0
  const right = rest[i] ?? 0
  const outS = flat.time(left, first) + flat.time(last, right) - flat.time(left, right)
  for (let k = 0; k <= rest.length; k++) {
    const before = rest[k - 1] ?? 0
    const after = rest[k] ?? 0
    const open = outS + flat.time(before, after)
    for (const way of length === 1 ? [segment] : [segment, [...segment].reverse()]) {
      if (k === i && way === segment) continue
      const gainS = open - flat.time(before, way[0] ?? 0) - flat.time(way.at(-1) ?? 0, after)
      if (!worthTrying(tour, gainS)) continue
      const next = better(search, tour, [...rest.slice(0, k), ...way, ...rest.slice(k)])
      if (next !== tour) return next
    }
  }
  return tour
}

/** Two neighbouring stretches change places: a move that 2-opt and Or-opt do not undo at once. */
function shaken(places: readonly number[], dice: () => number): number[] {
  const reach = Math.min(places.length, 12)
  const start = Math.floor(dice() * (places.length - reach + 1))
  const cuts = [0, 1, 2].map(() => start + Math.floor(dice() * (reach + 1))).sort((a, b) => a - b)
  const [a = 0, b = 0, c = 0] = cuts
  return [...places.slice(0, a), ...places.slice(b, c), ...places.slice(a, b), ...places.slice(c)]
}
