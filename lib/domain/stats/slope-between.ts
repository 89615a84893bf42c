import { at } from './shape'
import { residuals, type Series } from './slope-count'

/**
 * Calls `visit(earlier, later)` for every pair whose slope lies between two trial slopes, low < high.
 * Those are the pairs whose residuals change order between the two. Both trials must be certain: no
 * slope so close to one that rounding cannot tell.
 * Cost  n log n, plus one call a pair; memory n.
 */
export function visitSlopesBetween(
  series: Series,
  low: number,
  high: number,
  visit: (earlier: number, later: number) => void,
): void {
  const byLow = orderAt(series, low)
  const placeAtHigh = new Int32Array(byLow.length)
  orderAt(series, high).forEach((i, place) => {
    placeAtHigh[i] = place
  })
  // In byLow, a pair to visit stands as (earlier, later) with falling places at the high trial.
  let from: Int32Array = byLow
  let into: Int32Array = new Int32Array(byLow.length)
  const n = byLow.length
  for (let width = 1; width < n; width *= 2) {
    for (let start = 0; start < n; start += 2 * width) {
      mergeVisiting(from, into, placeAtHigh, start, width, visit)
    }
    ;[from, into] = [into, from]
  }
}

function mergeVisiting(
  from: Int32Array,
  into: Int32Array,
  place: Int32Array,
  start: number,
  width: number,
  visit: (earlier: number, later: number) => void,
): void {
  const middle = Math.min(start + width, from.length)
  const end = Math.min(start + 2 * width, from.length)
  let left = start
  let right = middle
  for (let k = start; k < end; k++) {
    if (right >= end || (left < middle && at(place, at(from, left)) < at(place, at(from, right)))) {
      into[k] = at(from, left++)
    } else {
      const later = at(from, right++)
      for (let i = left; i < middle; i++) visit(at(from, i), later)
      into[k] = later
    }
  }
}

/** Indices in the order of the residuals at a trial slope; at infinite slopes time decides, then value. */
function orderAt(series: Series, trial: number): Int32Array {
  const { centredTime, centredValue } = series
  const infinite = !Number.isFinite(trial)
  const key = infinite ? centredTime.map((t) => (trial > 0 ? -t : t)) : residuals(series, trial)
  return Int32Array.from(key.keys()).sort(
    (a, b) => at(key, a) - at(key, b) || at(centredValue, a) - at(centredValue, b) || a - b,
  )
}
