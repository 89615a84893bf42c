import { type Day, daysBetween } from '@/lib/domain/quantity/day'
import { filledCounts } from './pace'

export type CartridgeReading = {
  on: Day
  /** Volume meter, m³, counted up through changes (a lower count than before is a new meter); null where not read. */
  volumeM3: number | null
  /** Flow while the drop was read; null where not read. */
  flowM3PerS: number | null
  dropPa: number
}

/** One reading within one cartridge's life, `used` in m³ since its change (or in days where volumes are missing). */
export type LoadReading = { on: Day; used: number; flowRatio: number | null; dropPa: number }
export type CartridgeRun = { changedOn: Day | null; readings: LoadReading[]; by: 'volume' | 'days' }

/**
 * Readings cut at the changes into the lives of single cartridges, oldest first. The last run is the one in place,
 * and is there even without a reading.
 *
 * A reading on the very day of a change may be of the old cartridge or of the new one: it goes with the one whose
 * neighbouring drop it is nearer to.
 */
export function cartridgeRuns(
  readings: readonly CartridgeReading[],
  changes: readonly Day[],
  referenceFlowM3PerS: number,
): CartridgeRun[] {
  const sorted = [...readings]
    .filter((r) => r.dropPa > 0)
    .sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0))
  const starts = [...new Set(changes)].sort()
  const cuts: (Day | null)[] = [null, ...starts]
  const runs = cuts.map((changedOn, i) => {
    const until = cuts[i + 1] ?? null
    const own = sorted.filter((r) => {
      if (changedOn !== null && r.on === changedOn) return !isOfTheOld(r, sorted, changedOn)
      if (until !== null && r.on === until) return isOfTheOld(r, sorted, until)
      return (changedOn === null || r.on > changedOn) && (until === null || r.on < until)
    })
    return runOf(changedOn, own, referenceFlowM3PerS)
  })
  // Before the first known change the start is unknown: nothing can be counted from it.
  return runs.filter((run, i) => run.changedOn !== null || (i === runs.length - 1 && run.readings.length > 0))
}

function isOfTheOld(reading: CartridgeReading, sorted: readonly CartridgeReading[], change: Day): boolean {
  const before = sorted.filter((r) => r.on < change).at(-1)
  const after = sorted.find((r) => r.on > change)
  if (!before) return false
  const toOld = Math.abs(Math.log(reading.dropPa / before.dropPa))
  if (!after) return reading.dropPa > before.dropPa * 0.8
  return toOld < Math.abs(Math.log(reading.dropPa / after.dropPa))
}

function runOf(changedOn: Day | null, own: readonly CartridgeReading[], referenceFlow: number): CartridgeRun {
  const counts = filledCounts(own.map((r) => ({ on: r.on, count: r.volumeM3 })))
  const first = own[0]
  const start = changedOn ?? first?.on ?? null
  const volumes = sinceStart(own, counts, start)
  const known = volumes.filter((v) => v !== null).length
  const by = known >= 2 && known >= own.length / 2 ? 'volume' : 'days'
  const readings = own.flatMap((r, i) => {
    const used = by === 'volume' ? (volumes[i] ?? null) : start === null ? null : daysBetween(start, r.on)
    if (used === null) return []
    const flowRatio = r.flowM3PerS !== null && r.flowM3PerS > 0 ? r.flowM3PerS / referenceFlow : null
    return [{ on: r.on, used, flowRatio, dropPa: r.dropPa }]
  })
  return { changedOn, readings, by }
}

/**
 * Volume since the change: the count less the count on the change day; where nobody read it then, the first stretch
 * of this run is drawn back to the change day.
 */
function sinceStart(
  own: readonly CartridgeReading[],
  counts: readonly (number | null)[],
  start: Day | null,
): (number | null)[] {
  const known = own.flatMap((r, i) => {
    const count = counts[i] ?? null
    return count === null ? [] : [{ on: r.on, count }]
  })
  const first = known[0]
  const last = known.at(-1)
  if (!first || !last || start === null) return counts.map(() => null)
  let zero = first.count
  const gap = daysBetween(start, first.on)
  const whole = daysBetween(first.on, last.on)
  if (gap > 0) {
    if (whole <= 0 || last.count <= first.count) return counts.map(() => null)
    const drawnBack = first.count - ((last.count - first.count) / whole) * gap
    // A meter that was set to nought at the change says so by a count too small to be drawn back.
    zero = Math.max(0, drawnBack)
  }
  return counts.map((c) => (c === null || c < zero ? null : c - zero))
}
