/** A tape from a fixed mark to the well: what it read, how it lay, and how far it can be trusted. */
import { radians } from './bearing'

/** How the tape lay: level, or on a slope known by its rise between the ends or by its angle. */
export type TapeSlope =
  | { kind: 'level' }
  | { kind: 'rise'; riseM: number }
  | { kind: 'angle'; degrees: number }

/** One tie. `sigmaM` is its standard deviation, null for the usual one. */
export type Tie = { mark: string; tapeM: number; slope: TapeSlope; sigmaM: number | null }

export type LevelLength = { kind: 'level'; lengthM: number } | { kind: 'no-length'; why: string }

/**
 * The level length of a tape that lay on a slope: √(L² - h²), or L cos of the angle.
 * Answer  'no-length' where the tape is not longer than nothing, or not longer than the rise between its ends.
 */
export function levelLength(tapeM: number, slope: TapeSlope): LevelLength {
  if (!(tapeM > 0)) return { kind: 'no-length', why: 'A tape length is more than zero.' }
  if (slope.kind === 'level') return { kind: 'level', lengthM: tapeM }
  if (slope.kind === 'angle') {
    if (!(Math.abs(slope.degrees) < 90)) {
      return { kind: 'no-length', why: 'The angle of the tape is less than 90 degrees from level.' }
    }
    return { kind: 'level', lengthM: tapeM * Math.cos(radians(slope.degrees)) }
  }
  if (!(Math.abs(slope.riseM) < tapeM)) {
    return {
      kind: 'no-length',
      why: 'The rise between the ends of the tape is not less than the tape itself.',
    }
  }
  return { kind: 'level', lengthM: Math.sqrt(tapeM ** 2 - slope.riseM ** 2) }
}

const END_SIGMA_M = 0.03
const SAG_SHARE = 0.003

/**
 * The usual standard deviation of a tape tie, m: 3 cm for the two ends and 0.3 % for sag, slope and pull.
 * Common practice, no published source.
 */
export function usualTapeSigmaM(lengthM: number): number {
  return Math.hypot(END_SIGMA_M, SAG_SHARE * lengthM)
}
