/** How well a point is known: its covariance, and the ellipse that holds it with a stated chance. */
import { degreesOf, radians } from './bearing'
import type { LocalPoint } from './plane'

/** m²: of east, of north, and of both together. */
export type Covariance = { ee: number; nn: number; en: number }

/** Half axes in m; the long one lies on `majorBearingDeg`, 0 up to 180. Holds the point with chance `probability`. */
export type Ellipse = {
  semiMajorM: number
  semiMinorM: number
  majorBearingDeg: number
  probability: number
}

/**
 * The error ellipse of a covariance at a chance, for errors whose size is known beforehand (normal, two-dimensional).
 * Source  half axes are the roots of the eigenvalues times √(-2 ln(1 - p)), the chi-square of two degrees of freedom.
 * Throws  RangeError on a chance outside 0 to 1.
 */
export function errorEllipse(covariance: Covariance, probability: number): Ellipse {
  const { ee, nn, en } = covariance
  const middle = (ee + nn) / 2
  const spread = Math.hypot((nn - ee) / 2, en)
  const reach = ellipseReach(probability)
  const bearing = degreesOf(Math.atan2(2 * en, nn - ee) / 2)
  return {
    semiMajorM: reach * Math.sqrt(middle + spread),
    semiMinorM: reach * Math.sqrt(Math.max(0, middle - spread)),
    majorBearingDeg: (bearing + 180) % 180,
    probability,
  }
}

/** Standard deviations from the middle to the edge of an ellipse that holds a point with this chance. */
export function ellipseReach(probability: number): number {
  if (!(probability > 0 && probability < 1))
    throw new RangeError(`${probability} is no chance between 0 and 1`)
  return Math.sqrt(-2 * Math.log(1 - probability))
}

/** Squared distance of `offset` from the middle in standard deviations (Mahalanobis); Infinity where it cannot be. */
export function squaredReach(covariance: Covariance, offset: LocalPoint): number {
  const { ee, nn, en } = covariance
  const determinant = ee * nn - en * en
  if (!(determinant > 0)) return Number.POSITIVE_INFINITY
  const { eastM: e, northM: n } = offset
  return (nn * e * e - 2 * en * e * n + ee * n * n) / determinant
}

/** The same error in every direction, from the radius that holds the point with this chance. */
export function roundCovariance(radiusM: number, probability: number): Covariance {
  const sigma = radiusM / ellipseReach(probability)
  return { ee: sigma * sigma, nn: sigma * sigma, en: 0 }
}

/** The covariance of a sum of two independent errors. */
export function plus(a: Covariance, b: Covariance): Covariance {
  return { ee: a.ee + b.ee, nn: a.nn + b.nn, en: a.en + b.en }
}

/** Standard deviations along and across a bearing, m. */
export function sigmasAlong(covariance: Covariance, bearingDeg: number): { alongM: number; acrossM: number } {
  const sin = Math.sin(radians(bearingDeg))
  const cos = Math.cos(radians(bearingDeg))
  const { ee, nn, en } = covariance
  return {
    alongM: Math.sqrt(Math.max(0, ee * sin * sin + nn * cos * cos + 2 * en * sin * cos)),
    acrossM: Math.sqrt(Math.max(0, ee * cos * cos + nn * sin * sin - 2 * en * sin * cos)),
  }
}
