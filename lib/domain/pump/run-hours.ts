import { addDays, type Day, dayOfYear, daysBetween, monthOf } from '@/lib/domain/quantity/day'
import { median } from '@/lib/domain/stats'
import { dayLengthH } from './sun'

/** Hours of running from a volume (m³) and the flow (m³/s): an estimate, to be told as one. Throws RangeError without flow. */
export function hoursFromVolume(volumeM3: number, flowM3PerS: number): number {
  if (!(flowM3PerS > 0)) throw new RangeError(`flow ${flowM3PerS} m³/s is not above zero`)
  return volumeM3 / flowM3PerS / 3600
}

export type EstimatedHours =
  | { kind: 'hours'; counts: { on: Day; hours: number }[]; from: 'volume' | 'sun'; why: string }
  | { kind: 'cannot-say'; why: string }

/**
 * An hour meter that was never fitted, reckoned from the volume meter over the middle of the flows read.
 *
 * Shape   counts in m³ as one meter shows them; a count below the one before it is a new meter and goes on from there.
 * Answer  one count of hours for each count of volume; 'cannot-say' without two counts or any flow.
 */
export function hoursByVolume(
  volumes: readonly { on: Day; volumeM3: number }[],
  flowsM3PerS: readonly number[],
): EstimatedHours {
  const flows = flowsM3PerS.filter((flow) => flow > 0)
  if (volumes.length < 2) return { kind: 'cannot-say', why: 'the volume meter was not read twice' }
  if (flows.length === 0) return { kind: 'cannot-say', why: 'no flow was read to turn volume into hours' }
  const flow = median(flows)
  const sorted = [...volumes].sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0))
  let hours = 0
  let before: number | null = null
  const counts = sorted.map(({ on, volumeM3 }) => {
    if (before !== null && volumeM3 > before) hours += hoursFromVolume(volumeM3 - before, flow)
    before = volumeM3
    return { on, hours }
  })
  return { kind: 'hours', counts, from: 'volume', why: 'run hours reckoned from volume and flow' }
}

/** A pump on panels alone turns for about this share of the time between sunrise and sunset in a clear month. */
const TURNING_SHARE = 0.75

/**
 * Hours for which a pump on panels alone turns on an average day of a month: daylight, less its ends, in proportion
 * to the clearness of the month. A float switch that stops it makes them fewer: an upper estimate.
 * Units   hours; `clearness` mean of the month, 0 to 1, null where it is not known (0.5 is then taken).
 * Common practice, no published source, for the share of daylight; day length by FAO 56.
 */
export function sunRunHours(latitudeDeg: number, day: number, clearness: number | null): number {
  return dayLengthH(latitudeDeg, day) * TURNING_SHARE * Math.min(1, (clearness ?? 0.5) / 0.7)
}

/**
 * An hour meter that was never fitted, reckoned from the sun from the first of some days on.
 *
 * Shape   `clearness` twelve values, January first, null where they are not known.
 * Answer  'cannot-say' without a day.
 * Throws  RangeError for a latitude beyond 90°.
 */
export function hoursBySun(
  days: readonly Day[],
  latitudeDeg: number,
  clearness: readonly number[] | null,
): EstimatedHours {
  const sorted = [...new Set(days)].sort()
  const first = sorted[0]
  if (first === undefined) return { kind: 'cannot-say', why: 'there is no day to count from' }
  let hours = 0
  let at = first
  const counts = sorted.map((on) => {
    const ahead = daysBetween(at, on)
    for (let d = 0; d < ahead; d++) {
      const day = addDays(at, d)
      hours += sunRunHours(latitudeDeg, dayOfYear(day), clearness?.[monthOf(day) - 1] ?? null)
    }
    at = on
    return { on, hours }
  })
  return { kind: 'hours', counts, from: 'sun', why: 'run hours reckoned from the hours of sun' }
}
