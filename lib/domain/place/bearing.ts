/** Bearings: degrees clockwise from north, which north, and the word for the direction. */

/** True north is that of maps and coordinates; magnetic north is where a compass points. */
export type North = 'true' | 'magnetic'

export type Bearing = { degrees: number; north: North }

export type TrueBearing = { kind: 'true'; degrees: number } | { kind: 'cannot-say'; why: string }

const WORDS = [
  'north',
  'north-east',
  'east',
  'south-east',
  'south',
  'south-west',
  'west',
  'north-west',
] as const

export const radians = (degrees: number) => (degrees * Math.PI) / 180
export const degreesOf = (rad: number) => (rad * 180) / Math.PI

/** The same direction as a bearing from 0 up to 360. */
export function fullTurn(degrees: number): number {
  const turned = ((degrees % 360) + 360) % 360
  // A tiny negative angle rounds up to 360, which is 0.
  return turned === 360 ? 0 : turned
}

/** How far `to` lies clockwise of `from`, degrees, above -180 up to 180. */
export function turnBetween(from: number, to: number): number {
  const turn = fullTurn(to - from)
  return turn > 180 ? turn - 360 : turn
}

/** The direction as one of eight words: 'north', 'north-east' and so on. */
export function compassWord(degrees: number): string {
  return WORDS[Math.round(fullTurn(degrees) / 45) % 8] ?? 'north'
}

/**
 * A bearing from true north.
 *
 * Units   declination in degrees, east positive: true = magnetic + declination. It changes with place and year, so
 *         it is what somebody looked up and typed; null where nobody did.
 * Answer  'cannot-say' for a magnetic bearing without a declination: a guess can be 20 degrees out.
 */
export function trueBearing(bearing: Bearing, declinationDeg: number | null): TrueBearing {
  if (bearing.north === 'true') return { kind: 'true', degrees: fullTurn(bearing.degrees) }
  if (declinationDeg === null) {
    return {
      kind: 'cannot-say',
      why: 'The bearing is a compass bearing, and the declination of this place has not been entered.',
    }
  }
  return { kind: 'true', degrees: fullTurn(bearing.degrees + declinationDeg) }
}

/** What a compass shows for a true bearing; null where the declination has not been entered. */
export function compassBearing(trueDegrees: number, declinationDeg: number | null): number | null {
  return declinationDeg === null ? null : fullTurn(trueDegrees - declinationDeg)
}
