import { GRAVITY_M_PER_S2 } from '../water-physics'

const WATER_KG_PER_M3 = 1000

/** What turns the pump, and what it then gives. */
export type Drive =
  /** A flow whenever it is switched on; `hours` (0 to 23) where a timer or a generator limits it. */
  | { kind: 'mains'; flowM3PerS: number; hours?: readonly number[] }
  /** Panels without a battery. */
  | {
      kind: 'panels'
      /** Rated power of all panels, W at 1,000 W/m². */
      ratedW: number
      /** What is left of it on a warm roof through dust and cables: 0.75 to 0.8 is common practice. */
      deratingShare: number
      /** Wire-to-water efficiency, from the pump's own readings. */
      wireToWater: number
      /** Static lift, drawdown and friction to the tank, m. */
      headM: number
      /** Electric power under which the pump does not turn, W. */
      startW: number
      /** What the pump gives at best, whatever the sun. */
      mostM3PerS: number
    }
  /** The user's own table of flow by sun, ascending; nothing under its first row, its last flow beyond the last. */
  | { kind: 'table'; rows: readonly { wPerM2: number; flowM3PerS: number }[] }

/**
 * What the pump could give in an hour of so much sun on its panels, m³/s, were there water enough.
 *
 * Source  power of water ρgQH; panels in proportion to the sun. Efficiency is taken as one number, although a pump
 *         in half sun makes less of each watt: a table read off the pump itself is better.
 * Throws  RangeError for a drive that makes no sense (no head, no efficiency, a table that falls back in sun).
 */
export function pumpedBySun(drive: Drive, sunWPerM2: number, hour: number): number {
  if (drive.kind === 'mains') return !drive.hours || drive.hours.includes(hour) ? drive.flowM3PerS : 0
  if (drive.kind === 'table') return readOff(drive.rows, sunWPerM2)
  const electricW = (drive.ratedW * drive.deratingShare * sunWPerM2) / 1000
  if (electricW < drive.startW) return 0
  const flow = (drive.wireToWater * electricW) / (WATER_KG_PER_M3 * GRAVITY_M_PER_S2 * drive.headM)
  return Math.min(drive.mostM3PerS, flow)
}

/** Throws RangeError unless the numbers of a drive can be true. */
export function requireDrive(drive: Drive): void {
  const sound =
    drive.kind === 'mains'
      ? drive.flowM3PerS >= 0
      : drive.kind === 'table'
        ? drive.rows.length > 0 &&
          drive.rows.every(
            (row, i) =>
              row.flowM3PerS >= 0 &&
              row.wPerM2 >= 0 &&
              (i === 0 || row.wPerM2 > (drive.rows[i - 1]?.wPerM2 ?? 0)),
          )
        : drive.ratedW >= 0 &&
          drive.startW >= 0 &&
          drive.mostM3PerS >= 0 &&
          drive.headM > 0 &&
          drive.deratingShare > 0 &&
          drive.deratingShare <= 1 &&
          drive.wireToWater > 0 &&
          drive.wireToWater <= 1
  if (!sound) throw new RangeError(`a pump drive that cannot be: ${JSON.stringify(drive)}`)
}

/** The same drive with every flow times a factor: a worn pump, or one made new. */
export function drivenAt(drive: Drive, share: number): Drive {
  if (drive.kind === 'mains') return { ...drive, flowM3PerS: drive.flowM3PerS * share }
  if (drive.kind === 'table')
    return { ...drive, rows: drive.rows.map((row) => ({ ...row, flowM3PerS: row.flowM3PerS * share })) }
  // An efficiency above one would be refused: what the pump gains beyond it the panels are credited with.
  return {
    ...drive,
    ratedW: drive.ratedW * share,
    startW: drive.startW * share,
    mostM3PerS: drive.mostM3PerS * share,
  }
}

function readOff(rows: readonly { wPerM2: number; flowM3PerS: number }[], sun: number): number {
  const after = rows.findIndex((row) => row.wPerM2 > sun)
  if (after === 0) return 0
  const below = rows[after === -1 ? rows.length - 1 : after - 1]
  if (!below) return 0
  const above = after === -1 ? undefined : rows[after]
  if (!above) return below.flowM3PerS
  const share = (sun - below.wPerM2) / (above.wPerM2 - below.wPerM2)
  return below.flowM3PerS + share * (above.flowM3PerS - below.flowM3PerS)
}
