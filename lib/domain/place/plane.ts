/** Flat ground around a well: metres east and north of a chosen point. */
import { degreesOf, fullTurn, radians } from './bearing'
import { type LatLon, lineBetween, pointAt } from './geodesy'

export type LocalPoint = { eastM: number; northM: number }

/** Distance in m between two local points. */
export function apartM(a: LocalPoint, b: LocalPoint): number {
  return Math.hypot(b.eastM - a.eastM, b.northM - a.northM)
}

/** Bearing in degrees from a to b, in the north of the local frame; 0 where both are one point. */
export function bearingBetween(a: LocalPoint, b: LocalPoint): number {
  return fullTurn(degreesOf(Math.atan2(b.eastM - a.eastM, b.northM - a.northM)))
}

/** The local point that lies `distanceM` from `from` on `bearingDeg`. */
export function stepFrom(from: LocalPoint, bearingDeg: number, distanceM: number): LocalPoint {
  return {
    eastM: from.eastM + distanceM * Math.sin(radians(bearingDeg)),
    northM: from.northM + distanceM * Math.cos(radians(bearingDeg)),
  }
}

/** On which hand `point` lies when walking from a to b, and how far off that line in m (left positive). */
export function offLineM(a: LocalPoint, b: LocalPoint, point: LocalPoint): number {
  const length = apartM(a, b)
  if (length === 0) return 0
  const cross =
    (b.eastM - a.eastM) * (point.northM - a.northM) - (b.northM - a.northM) * (point.eastM - a.eastM)
  return cross / length
}

/**
 * A place in metres east and north of `origin`: distance and bearing from it, laid flat. Lengths from the origin
 * are true; between two points 1 km off it they are out by 1 part in 10⁸.
 */
export function toLocal(origin: LatLon, place: LatLon): LocalPoint {
  const { distanceM, bearingDeg } = lineBetween(origin, place)
  return stepFrom({ eastM: 0, northM: 0 }, bearingDeg ?? 0, distanceM)
}

/** The inverse of toLocal. */
export function fromLocal(origin: LatLon, point: LocalPoint): LatLon {
  const centre = { eastM: 0, northM: 0 }
  return pointAt(origin, bearingBetween(centre, point), apartM(centre, point))
}
