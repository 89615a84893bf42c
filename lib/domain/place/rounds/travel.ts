/** How long the driving takes, without a road map. */
import { type LatLon, lineBetween } from '../geodesy'

/** `roadFactor` is road length over straight line, at least 1; `speedKmH` the mean speed on the road. */
export type Driving = { roadFactor: number; speedKmH: number }

/**
 * A start for outfits that have not measured theirs: country roads are a good third longer than the straight line, at
 * 50 km/h with bends and gates. Common practice, no published source.
 */
export const USUAL_DRIVING: Driving = { roadFactor: 1.35, speedKmH: 50 }

/**
 * Driving time in s between every two places: the straight line on the ellipsoid, times the road factor, over the
 * speed. An estimate: rivers and ridges are not known.
 * Throws  RangeError on a factor below 1, a speed that is not above 0, or a place that is none.
 * Cost    one geodesic a pair.
 */
export function travelTimes(places: readonly LatLon[], { roadFactor, speedKmH }: Driving): number[][] {
  if (!(roadFactor >= 1)) throw new RangeError(`a road is not shorter than the straight line: ${roadFactor}`)
  if (!(speedKmH > 0)) throw new RangeError(`${speedKmH} km/h gets nowhere`)
  const times = places.map(() => new Array<number>(places.length).fill(0))
  places.forEach((a, i) => {
    for (let j = i + 1; j < places.length; j++) {
      const b = places[j]
      const there = times[i]
      const back = times[j]
      if (!b || !there || !back) continue
      const seconds = (lineBetween(a, b).distanceM * roadFactor * 3.6) / speedKmH
      there[j] = seconds
      back[i] = seconds
    }
  })
  return times
}
