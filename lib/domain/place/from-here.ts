/** From where somebody stands to the well: how far, which way, and how sure. */
import { formatNumber, fromSi, type UnitSystem, unitSymbol } from '@/lib/domain/quantity'
import { compassBearing, compassWord } from './bearing'
import { type LatLon, lineBetween } from './geodesy'

/** A position. `accuracyM` is the radius that holds it with 95 %; null where it is not known. */
export type Fix = LatLon & { accuracyM: number | null }

export type Way = {
  distanceM: number
  /** From true north; null on the spot itself. */
  trueDeg: number | null
  /** What a compass shows; null where the declination was not entered. */
  compassDeg: number | null
  /** Radius that holds the well with about 95 %, from both accuracies; null where either is unknown. */
  accuracyM: number | null
  /** Set where the errors are as large as the distance: walking on by the pointer is no use. */
  near: boolean
  /** "18 m, north-east, ±6 m" */
  words: string
  /** What a reader must know of the bearing. */
  northNote: string
}

/**
 * The way from a device to a well.
 *
 * Units   m and degrees; declination in degrees, east positive, as somebody entered it, null where nobody did.
 * Method  the shortest line on the ellipsoid; independent errors add as the root of the sum of squares.
 * Throws  RangeError on a position that is none: forms and devices are checked before.
 */
export function wayFromHere(here: Fix, well: Fix, declinationDeg: number | null, system: UnitSystem): Way {
  const { distanceM, bearingDeg } = lineBetween(here, well)
  const accuracyM =
    here.accuracyM === null || well.accuracyM === null ? null : Math.hypot(here.accuracyM, well.accuracyM)
  const near = accuracyM !== null && distanceM <= accuracyM
  const compassDeg = bearingDeg === null ? null : compassBearing(bearingDeg, declinationDeg)
  const sure = accuracyM === null ? 'accuracy unknown' : `±${sayStep(accuracyM, system)}`
  const words = near
    ? `within ${sayStep(accuracyM, system)} of here: swing the tapes`
    : [sayStep(distanceM, system), bearingDeg === null ? null : compassWord(bearingDeg), sure]
        .filter((part) => part !== null)
        .join(', ')
  return {
    distanceM,
    trueDeg: bearingDeg,
    compassDeg,
    accuracyM,
    near,
    words,
    northNote: northNote(bearingDeg, compassDeg),
  }
}

function northNote(trueDeg: number | null, compassDeg: number | null): string {
  if (trueDeg === null) return 'You stand on the recorded spot.'
  const told = `${Math.round(trueDeg) % 360}° from true north.`
  if (compassDeg === null) {
    return `${told} A compass may show up to 20° more or less: the declination of this place has not been entered.`
  }
  return `${told} ${Math.round(compassDeg) % 360}° by compass, with the declination that was entered.`
}

const FAR_M = 1000

/** A distance as somebody walks it: whole metres or feet, kilometres or miles with one decimal from 1 km. */
export function sayStep(distanceM: number, system: UnitSystem): string {
  const far = distanceM >= FAR_M
  const unit = system === 'metric' ? (far ? 'km' : 'm') : far ? 'mi' : 'ft'
  return `${formatNumber(fromSi(distanceM, unit), far ? 1 : 0, far ? 1 : 0)}\u00a0${unitSymbol(unit)}`
}
