/**
 * Distances and bearings on the ellipsoid of satellite positions (WGS 84).
 *
 * Source  T. Vincenty 1975, Survey Review 23(176):88-93, direct and inverse; constants of NIMA TR8350.2.
 *         Good to a millimetre; checked against published lines in tests/published/place.
 * Limits  two points nearly opposite each other on the globe do not converge: the great circle on the mean sphere
 *         answers there, within 0.6 %. No round goes so far; a wrong sign in a coordinate does.
 */
import { degreesOf, fullTurn, radians } from './bearing'

/** Degrees, north and east positive. */
export type LatLon = { latitude: number; longitude: number }

/** `bearingDeg` is true, at the start of the line; null where both points are the same. */
export type Line = { distanceM: number; bearingDeg: number | null; method: 'ellipsoid' | 'sphere' }

const EQUATOR_M = 6_378_137
const FLATTENING = 1 / 298.257_223_563
const POLE_M = EQUATOR_M * (1 - FLATTENING)
const MEAN_RADIUS_M = 6_371_008.8
const TURNS_MAX = 100
const CLOSE = 1e-12

/**
 * The shortest line between two points: length in m and true bearing at the start.
 * Throws  RangeError on a latitude beyond ±90 or a longitude beyond ±180: forms refuse those.
 */
export function lineBetween(from: LatLon, to: LatLon): Line {
  requireLatLon(from)
  requireLatLon(to)
  if (from.latitude === to.latitude && from.longitude === to.longitude) {
    return { distanceM: 0, bearingDeg: null, method: 'ellipsoid' }
  }
  return onEllipsoid(from, to) ?? onSphere(from, to)
}

/**
 * The point that lies `distanceM` away on true bearing `bearingDeg`.
 * Throws  RangeError on a start that is no place, or a distance that is negative or not finite.
 */
export function pointAt(from: LatLon, bearingDeg: number, distanceM: number): LatLon {
  requireLatLon(from)
  if (!(distanceM >= 0 && Number.isFinite(distanceM))) throw new RangeError(`${distanceM} is no distance`)
  const start = reducedLatitude(from.latitude)
  const heading = radians(bearingDeg)
  const sigma1 = Math.atan2(Math.tan(start), Math.cos(heading))
  const sinAlpha = Math.cos(start) * Math.sin(heading)
  const cosSqAlpha = 1 - sinAlpha * sinAlpha
  const { a, b } = series(cosSqAlpha)
  const first = distanceM / (POLE_M * a)
  let sigma = first
  for (let turn = 0; turn < TURNS_MAX; turn++) {
    const next = first + deltaSigma(b, sigma, Math.cos(2 * sigma1 + sigma))
    if (Math.abs(next - sigma) < CLOSE) break
    sigma = next
  }
  const sinU = Math.sin(start)
  const cosU = Math.cos(start)
  const cos2m = Math.cos(2 * sigma1 + sigma)
  const across = sinU * Math.sin(sigma) - cosU * Math.cos(sigma) * Math.cos(heading)
  const latitude = Math.atan2(
    sinU * Math.cos(sigma) + cosU * Math.sin(sigma) * Math.cos(heading),
    (1 - FLATTENING) * Math.hypot(sinAlpha, across),
  )
  const lambda = Math.atan2(
    Math.sin(sigma) * Math.sin(heading),
    cosU * Math.cos(sigma) - sinU * Math.sin(sigma) * Math.cos(heading),
  )
  const longitude = from.longitude + degreesOf(lambda - overshoot(cosSqAlpha, sinAlpha, sigma, cos2m))
  return { latitude: degreesOf(latitude), longitude: fullTurn(longitude + 180) - 180 }
}

function onEllipsoid(from: LatLon, to: LatLon): Line | null {
  const u1 = reducedLatitude(from.latitude)
  const u2 = reducedLatitude(to.latitude)
  const apart = radians(fullTurn(to.longitude - from.longitude + 180) - 180)
  let lambda = apart
  for (let turn = 0; turn < TURNS_MAX; turn++) {
    const east = Math.cos(u2) * Math.sin(lambda)
    const north = Math.cos(u1) * Math.sin(u2) - Math.sin(u1) * Math.cos(u2) * Math.cos(lambda)
    const sinSigma = Math.hypot(east, north)
    if (sinSigma === 0) return null
    const cosSigma = Math.sin(u1) * Math.sin(u2) + Math.cos(u1) * Math.cos(u2) * Math.cos(lambda)
    const sigma = Math.atan2(sinSigma, cosSigma)
    const sinAlpha = (Math.cos(u1) * Math.cos(u2) * Math.sin(lambda)) / sinSigma
    const cosSqAlpha = 1 - sinAlpha * sinAlpha
    // Along the equator the middle of the line has no latitude to speak of.
    const cos2m = cosSqAlpha < 1e-15 ? 0 : cosSigma - (2 * Math.sin(u1) * Math.sin(u2)) / cosSqAlpha
    const next = apart + overshoot(cosSqAlpha, sinAlpha, sigma, cos2m)
    if (Math.abs(next) > Math.PI) return null
    if (Math.abs(next - lambda) < CLOSE) {
      const { a, b } = series(cosSqAlpha)
      const distanceM = POLE_M * a * (sigma - deltaSigma(b, sigma, cos2m))
      return { distanceM, bearingDeg: fullTurn(degreesOf(Math.atan2(east, north))), method: 'ellipsoid' }
    }
    lambda = next
  }
  return null
}

/** The great circle (haversine) on the sphere of mean radius. */
function onSphere(from: LatLon, to: LatLon): Line {
  const lat1 = radians(from.latitude)
  const lat2 = radians(to.latitude)
  const apart = radians(to.longitude - from.longitude)
  const half = Math.sin((lat2 - lat1) / 2) ** 2 + Math.cos(lat1) * Math.cos(lat2) * Math.sin(apart / 2) ** 2
  const east = Math.sin(apart) * Math.cos(lat2)
  const north = Math.cos(lat1) * Math.sin(lat2) - Math.sin(lat1) * Math.cos(lat2) * Math.cos(apart)
  return {
    distanceM: 2 * MEAN_RADIUS_M * Math.asin(Math.min(1, Math.sqrt(half))),
    bearingDeg: fullTurn(degreesOf(Math.atan2(east, north))),
    method: 'sphere',
  }
}

const reducedLatitude = (latitude: number) => Math.atan((1 - FLATTENING) * Math.tan(radians(latitude)))

/** Vincenty's A and B. */
function series(cosSqAlpha: number): { a: number; b: number } {
  const uSq = (cosSqAlpha * (EQUATOR_M ** 2 - POLE_M ** 2)) / POLE_M ** 2
  return {
    a: 1 + (uSq / 16_384) * (4096 + uSq * (-768 + uSq * (320 - 175 * uSq))),
    b: (uSq / 1024) * (256 + uSq * (-128 + uSq * (74 - 47 * uSq))),
  }
}

function deltaSigma(b: number, sigma: number, cos2m: number): number {
  const sin = Math.sin(sigma)
  const inner =
    Math.cos(sigma) * (-1 + 2 * cos2m ** 2) - (b / 6) * cos2m * (-3 + 4 * sin ** 2) * (-3 + 4 * cos2m ** 2)
  return b * sin * (cos2m + (b / 4) * inner)
}

/** How much the longitude on the helping sphere runs ahead of that on the ellipsoid, rad. */
function overshoot(cosSqAlpha: number, sinAlpha: number, sigma: number, cos2m: number): number {
  const c = (FLATTENING / 16) * cosSqAlpha * (4 + FLATTENING * (4 - 3 * cosSqAlpha))
  const inner = cos2m + c * Math.cos(sigma) * (-1 + 2 * cos2m ** 2)
  return (1 - c) * FLATTENING * sinAlpha * (sigma + c * Math.sin(sigma) * inner)
}

function requireLatLon({ latitude, longitude }: LatLon): void {
  if (!(Math.abs(latitude) <= 90 && Math.abs(longitude) <= 180)) {
    throw new RangeError(`latitude ${latitude}, longitude ${longitude} is no place`)
  }
}
