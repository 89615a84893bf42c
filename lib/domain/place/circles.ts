/** Where two tapes meet. */
import { degreesOf } from './bearing'
import { apartM, type LocalPoint } from './plane'

/** `left` and `right` are the hands of somebody who walks from the first mark to the second. */
export type Meeting =
  | { kind: 'two'; left: LocalPoint; right: LocalPoint; angleDeg: number }
  | { kind: 'apart'; gapM: number; nearest: LocalPoint }
  | { kind: 'inside'; gapM: number; nearest: LocalPoint }
  | { kind: 'one-mark' }

/**
 * The points at `radiusA` from `a` and `radiusB` from `b`.
 *
 * Answer  'apart' where the tapes are together too short by `gapM`; 'inside' where one is longer than the other and
 *         the way between the marks together, by `gapM`; `nearest` is then the point on the line through both marks
 *         that misses both tapes alike. 'one-mark' where the marks are one point.
 *         `angleDeg` is the angle between the tapes at the point.
 * Source  distance-distance intersection: a = (r1² - r2² + d²)/2d, h² = r1² - a².
 */
export function meet(a: LocalPoint, radiusA: number, b: LocalPoint, radiusB: number): Meeting {
  const d = apartM(a, b)
  if (d === 0) return { kind: 'one-mark' }
  const east = (b.eastM - a.eastM) / d
  const north = (b.northM - a.northM) / d
  const onLine = (along: number) => ({ eastM: a.eastM + along * east, northM: a.northM + along * north })
  if (radiusA + radiusB < d) {
    return { kind: 'apart', gapM: d - radiusA - radiusB, nearest: onLine((radiusA + d - radiusB) / 2) }
  }
  if (d < Math.abs(radiusA - radiusB)) {
    const far = radiusA > radiusB ? (radiusA + d + radiusB) / 2 : (d - radiusB - radiusA) / 2
    return { kind: 'inside', gapM: Math.abs(radiusA - radiusB) - d, nearest: onLine(far) }
  }
  const along = (radiusA ** 2 - radiusB ** 2 + d ** 2) / (2 * d)
  const off = Math.sqrt(Math.max(0, radiusA ** 2 - along ** 2))
  const foot = onLine(along)
  const cosAngle = (radiusA ** 2 + radiusB ** 2 - d ** 2) / (2 * radiusA * radiusB)
  return {
    kind: 'two',
    left: { eastM: foot.eastM - off * north, northM: foot.northM + off * east },
    right: { eastM: foot.eastM + off * north, northM: foot.northM - off * east },
    angleDeg: degreesOf(Math.acos(Math.max(-1, Math.min(1, cosAngle)))),
  }
}
