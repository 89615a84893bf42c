/** The best order by dynamic programming: sure, and feasible for a handful of stops. */
import { compareCost, costOf, type FlatProblem, type TourCost } from './tour'

/** Without hours: 2^n × n² steps. Thirteen stops take some milliseconds. */
export const EXACT_STOPS = 13
/** With hours: partial tours kept in all, times stops, before giving up. */
const LABELS_MAX = 600_000
const BITS_MAX = 30
/** Few enough to try every order where none is in time: 7! = 5,040. */
export const EVERY_ORDER_STOPS = 7

/**
 * The tour with the least driving, hours left aside.
 * Source  Held & Karp 1962, J. SIAM 10(1):196-210.
 * Cost    2^n n² time and 2^n n numbers; meant for n up to EXACT_STOPS.
 */
export function leastDriving(flat: FlatProblem): number[] {
  const n = flat.size - 1
  if (n === 0) return []
  const full = 1 << n
  const best = new Float64Array(full * n).fill(Number.POSITIVE_INFINITY)
  const from = new Int8Array(full * n).fill(-1)
  for (let j = 0; j < n; j++) best[(1 << j) * n + j] = flat.time(0, j + 1)
  for (let set = 1; set < full; set++) {
    for (let last = 0; last < n; last++) {
      const sofar = best[set * n + last] ?? 0
      if (!Number.isFinite(sofar)) continue
      for (let next = 0; next < n; next++) {
        if (set & (1 << next)) continue
        const state = (set | (1 << next)) * n + next
        const reached = sofar + flat.time(last + 1, next + 1)
        if (reached < (best[state] ?? 0)) {
          best[state] = reached
          from[state] = last
        }
      }
    }
  }
  return walkBack(flat, best, from)
}

function walkBack(flat: FlatProblem, best: Float64Array, from: Int8Array): number[] {
  const n = flat.size - 1
  let set = (1 << n) - 1
  let last = 0
  const closed = (j: number) => (best[set * n + j] ?? 0) + flat.time(j + 1, 0)
  for (let j = 1; j < n; j++) if (closed(j) < closed(last)) last = j
  const tour: number[] = []
  while (last >= 0) {
    tour.push(last + 1)
    const before = from[set * n + last] ?? -1
    set &= ~(1 << last)
    last = before
  }
  return tour.reverse()
}

/** A partial tour: which places it has been to, where and when it stands, and the driving so far. */
type Label = { set: number; last: number; clock: number; travelS: number; before: Label | null }

/**
 * The tour with the least driving that is nowhere late; 'none' where there is no such tour, 'too-many' where the hours
 * leave too much open to try everything.
 * Method  partial tours of equal length, place and stops are kept while no other is both sooner and shorter; one is
 *         dropped as soon as any stop still to come could no longer be in time.
 * Source  Dumas, Desrosiers, Gélinas & Solomon 1995, Operations Research 43(2):367-371.
 */
export function leastDrivingInTime(
  flat: FlatProblem,
): { kind: 'best'; tour: number[] } | { kind: 'none' | 'too-many' } {
  const n = flat.size - 1
  if (n === 0) return flat.startS <= flat.endS ? { kind: 'best', tour: [] } : { kind: 'none' }
  if (n > BITS_MAX) return { kind: 'too-many' }
  let layer: Label[] = [{ set: 0, last: 0, clock: flat.startS, travelS: 0, before: null }]
  let made = 0
  for (let length = 0; length < n; length++) {
    const kept = new Map<number, Label[]>()
    for (const label of layer) {
      for (let next = 1; next <= n; next++) {
        const longer = extended(flat, label, next)
        if (!longer || !keep(kept, longer, flat.size)) continue
        if (++made * n > LABELS_MAX) return { kind: 'too-many' }
      }
    }
    layer = [...kept.values()].flat()
  }
  const home = layer.filter((label) => label.clock + flat.time(label.last, 0) <= flat.endS)
  const [first] = home
  if (!first) return { kind: 'none' }
  const total = (label: Label) => label.travelS + flat.time(label.last, 0)
  return { kind: 'best', tour: tourOf(home.reduce((a, b) => (total(b) < total(a) ? b : a), first)) }
}

/** The label one stop longer; null where it has been there, or some stop would be late. */
function extended(flat: FlatProblem, label: Label, next: number): Label | null {
  const bit = 2 ** (next - 1)
  if (label.set & bit) return null
  const clock = arrival(flat, label.last, label.clock, next)
  if (clock > (flat.closes[next] ?? 0)) return null
  const set = label.set | bit
  for (let other = 1; other < flat.size; other++) {
    if (set & (2 ** (other - 1))) continue
    if (arrival(flat, next, clock, other) > (flat.closes[other] ?? 0)) return null
  }
  if (clock + flat.time(next, 0) > flat.endS) return null
  return { set, last: next, clock, travelS: label.travelS + flat.time(label.last, next), before: label }
}

/** When the work at `next` is over. */
const arrival = (flat: FlatProblem, last: number, clock: number, next: number) =>
  Math.max(clock + flat.time(last, next), flat.opens[next] ?? 0) + (flat.service[next] ?? 0)

/** Adds a label unless another is at least as soon and as short; takes out those it beats. */
function keep(kept: Map<number, Label[]>, label: Label, size: number): boolean {
  const state = label.set * size + label.last
  const same = kept.get(state) ?? []
  if (same.some((other) => other.clock <= label.clock && other.travelS <= label.travelS)) return false
  kept.set(state, [
    ...same.filter((other) => other.clock < label.clock || other.travelS < label.travelS),
    label,
  ])
  return true
}

function tourOf(label: Label): number[] {
  const tour: number[] = []
  for (let at: Label | null = label; at?.before; at = at.before) tour.push(at.last)
  return tour.reverse()
}

/** The tour with the least lateness, then the least driving, by trying every one. Meant for EVERY_ORDER_STOPS. */
export function leastLate(flat: FlatProblem): number[] {
  let best: { tour: number[]; cost: TourCost } | null = null
  const tour: number[] = []
  const grow = () => {
    if (tour.length === flat.size - 1) {
      const cost = costOf(flat, tour)
      if (!best || compareCost(cost, best.cost) < 0) best = { tour: [...tour], cost }
      return
    }
    for (let place = 1; place < flat.size; place++) {
      if (tour.includes(place)) continue
      tour.push(place)
      grow()
      tour.pop()
    }
  }
  grow()
  return best === null ? [] : (best as { tour: number[] }).tour
}
