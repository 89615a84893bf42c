import { type Day, daysBetween } from '@/lib/domain/quantity/day'
import { type Count, filledCounts } from './pace'

export type CartridgeReading = {
  on: Day
  /** Volume meter, m³, counted up through changes (a lower count than before is a new meter); null where not read. */
  volumeM3: number | null
  /** Flow while the drop was read; null where not read. */
  flowM3PerS: number | null
  dropPa: number
  /** Read across the old or the new cartridge, where it was changed on that day and somebody said so. */
  of?: 'old' | 'new' | null
}

/** One reading within one cartridge's life, `used` in m³ since its change (or in days where volumes are missing). */
export type LoadReading = { on: Day; used: number; flowRatio: number | null; dropPa: number }
export type CartridgeRun = { changedOn: Day | null; readings: LoadReading[]; by: 'volume' | 'days' }

/**
 * Readings cut at the changes into the lives of single cartridges, oldest first. The last run is the one in place,
 * and is there even without a reading.
 *
 * A reading on the very day of a change is of the cartridge that it names; where it names none it goes with the one
 * whose neighbouring drop it is nearer to, flow for flow.
 *
 * Shape   `volumes` are the counts of the meter on all days, those without a drop too: the count of the change day is
 *         where a cartridge's volume begins.
 */
export function cartridgeRuns(
  readings: readonly CartridgeReading[],
  changes: readonly Day[],
  referenceFlowM3PerS: number,
  volumes: readonly Count[] = [],
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
    return runOf(changedOn, own, referenceFlowM3PerS, volumes)
  })
  // Before the first known change the start is unknown: nothing can be counted from it.
  return runs.filter((run, i) => run.changedOn !== null || (i === runs.length - 1 && run.readings.length > 0))
}

/** Drop grows with flow to about this power: it carries readings of a day to one flow, near enough to tell two apart. */
const FLOW_POWER = 1.4
/** A new cartridge drops no more than this share of what it does at the next reading, and the old hardly less than before. */
const NEW_AT_MOST = 1.25
const OLD_AT_LEAST = 0.8

function isOfTheOld(reading: CartridgeReading, sorted: readonly CartridgeReading[], change: Day): boolean {
  if (reading.of) return reading.of === 'old'
  const before = sorted.filter((r) => r.on < change).at(-1)
  const after = sorted.find((r) => r.on > change)
  const over = (r: CartridgeReading) => {
    const flows = r.flowM3PerS && reading.flowM3PerS ? Math.log(reading.flowM3PerS / r.flowM3PerS) : 0
    return Math.log(reading.dropPa / r.dropPa) - FLOW_POWER * flows
  }
  if (!before && !after) return false
  if (!before && after) return over(after) > Math.log(NEW_AT_MOST)
  if (before && !after) return over(before) > Math.log(OLD_AT_LEAST)
  return before !== undefined && after !== undefined && Math.abs(over(before)) < Math.abs(over(after))
}

function runOf(
  changedOn: Day | null,
  own: readonly CartridgeReading[],
  referenceFlow: number,
  allVolumes: readonly Count[],
): CartridgeRun {
  const counts = filledCounts(own.map((r) => ({ on: r.on, count: r.volumeM3 })))
  const first = own[0]
  const start = changedOn ?? first?.on ?? null
  const volumes = sinceStart(own, counts, start, changedOn === null ? null : countOn(changedOn, allVolumes))
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

/** The count on a day, read or between its neighbours in time; null where it lies outside them or across a new meter. */
function countOn(day: Day, volumes: readonly Count[]): number | null {
  const sorted = [...volumes].sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : a.count - b.count))
  const read = sorted.find(({ on }) => on === day)
  if (read) return read.count
  const at = sorted.filter(({ on }) => on < day).length
  const around = [...sorted.slice(0, at), { on: day, count: null }, ...sorted.slice(at)]
  return filledCounts(around)[at] ?? null
}

/**
 * Volume since the change: the count less the count on the change day; where nobody read it then, the first stretch
 * of this run is drawn back to the change day.
 */
function sinceStart(
  own: readonly CartridgeReading[],
  counts: readonly (number | null)[],
  start: Day | null,
  atChange: number | null,
): (number | null)[] {
  const known = own.flatMap((r, i) => {
    const count = counts[i] ?? null
    return count === null ? [] : [{ on: r.on, count }]
  })
  const first = known[0]
  const last = known.at(-1)
  if (!first || !last || start === null) return counts.map(() => null)
  if (atChange !== null && atChange <= first.count) {
    return counts.map((c) => (c === null || c < atChange ? null : c - atChange))
  }
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
