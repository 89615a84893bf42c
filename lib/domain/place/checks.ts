/** A place from ties held against what else was written down: a coordinate, a bearing, paces. */
import { formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import { chiSquareUpper, normalTwoSidedP } from '@/lib/domain/stats'
import { type Bearing, compassWord, trueBearing, turnBetween } from './bearing'
import { type Covariance, plus, roundCovariance, sigmasAlong, squaredReach } from './ellipse'
import { apartM, bearingBetween, type LocalPoint } from './plane'

/** A point with how well it is known. */
export type Known = { at: LocalPoint; covariance: Covariance }

/** `p` is the chance of being so far apart when both are right. */
export type Agreement =
  | { kind: 'agrees'; p: number; why: string }
  | { kind: 'disagrees'; p: number; why: string }
  | { kind: 'cannot-say'; why: string }

/** A coordinate in the local frame. `accuracyM` is the radius that holds it with 95 %; null where not recorded. */
export type CoordinateCheck = { at: LocalPoint; accuracyM: number | null }

/** A walk from a mark to the well: bearing, paces, or both. `paceM` is the walker's own pace. */
export type Paced = {
  from: LocalPoint
  fromName: string
  bearing: Bearing | null
  paces: number | null
  paceM: number
}

/** The chance that a position's accuracy radius holds it, as the W3C Geolocation standard asks of devices. */
export const ACCURACY_PROBABILITY = 0.95

/** Hand compass and counted paces, standard deviations. Common practice, no published source. */
const COMPASS_SIGMA_DEG = 4
const PACING_SIGMA_SHARE = 0.07

/**
 * Holds a place against the recorded coordinate.
 * Answer  'disagrees' below chance `falseAlarm`, 'cannot-say' for a coordinate without its accuracy.
 */
export function checkCoordinate(
  known: Known,
  coordinate: CoordinateCheck,
  falseAlarm: number,
  system: UnitSystem,
): Agreement {
  if (coordinate.accuracyM === null) {
    return { kind: 'cannot-say', why: 'The accuracy of the coordinate was not recorded.' }
  }
  const offset = between(coordinate.at, known.at)
  const together = plus(known.covariance, roundCovariance(coordinate.accuracyM, ACCURACY_PROBABILITY))
  const p = chiSquareUpper(squaredReach(together, offset), 2)
  const away = formatQuantity(apartM(coordinate.at, known.at), 'distance', system)
  const accuracy = formatQuantity(coordinate.accuracyM, 'distance', system)
  const word = compassWord(bearingBetween(coordinate.at, known.at))
  const where = `The ties put the well ${away} ${word} of the coordinate (±${accuracy})`
  if (p < falseAlarm) return { kind: 'disagrees', p, why: `${where}: more than their errors explain.` }
  return { kind: 'agrees', p, why: `${where}, within their errors.` }
}

/**
 * Holds a place against a bearing and paces from a mark. `declinationDeg` turns a compass bearing into a true one;
 * null where nobody entered it, and then only the paces are held.
 */
export function checkPaced(
  known: Known,
  paced: Paced,
  declinationDeg: number | null,
  falseAlarm: number,
  system: UnitSystem,
): Agreement {
  const distanceM = apartM(paced.from, known.at)
  const heading = bearingBetween(paced.from, known.at)
  const { alongM, acrossM } = sigmasAlong(known.covariance, heading)
  const parts: { off: number; why: string }[] = []
  const unsaid: string[] = []
  if (paced.paces !== null) {
    const walkedM = paced.paces * paced.paceM
    const say = (m: number) => formatQuantity(m, 'distance', system)
    parts.push({
      off: (walkedM - distanceM) / Math.hypot(PACING_SIGMA_SHARE * walkedM, alongM),
      why: `${paced.paces} paces are ${say(walkedM)}, the ties say ${say(distanceM)}`,
    })
  }
  if (paced.bearing !== null) {
    const said = trueBearing(paced.bearing, declinationDeg)
    if (said.kind === 'cannot-say') unsaid.push(said.why)
    else {
      const sigmaDeg = Math.hypot(COMPASS_SIGMA_DEG, (Math.atan2(acrossM, distanceM) * 180) / Math.PI)
      parts.push({
        off: turnBetween(said.degrees, heading) / sigmaDeg,
        why: `the bearing is ${Math.round(said.degrees)}° true, the ties say ${Math.round(heading)}°`,
      })
    }
  }
  const [first] = parts
  if (!first) return { kind: 'cannot-say', why: unsaid[0] ?? 'Neither bearing nor paces were recorded.' }
  const worst = parts.reduce((a, b) => (Math.abs(b.off) > Math.abs(a.off) ? b : a), first)
  // The worse of two looks is twice as likely to be far off by chance.
  const p = Math.min(1, parts.length * normalTwoSidedP(worst.off))
  const told = `From "${paced.fromName}" ${parts.map((part) => part.why).join(' and ')}.`
  const why = [told, ...unsaid].join(' ')
  return p < falseAlarm ? { kind: 'disagrees', p, why } : { kind: 'agrees', p, why }
}

const between = (a: LocalPoint, b: LocalPoint): LocalPoint => ({
  eastM: b.eastM - a.eastM,
  northM: b.northM - a.northM,
})
