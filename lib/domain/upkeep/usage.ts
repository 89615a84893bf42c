import { type Day, daysBetween } from '@/lib/domain/quantity'
import { agreeingChain, fastestBelieved, inMeterOrder, type LeftOut, type Link } from './meter-chain'
import { fitPace, type Stretch } from './pace'
import { weightedDays } from './season'
import type { MeterReading, Pace, SetAside, UsageTrack, Used, UseGap, UsePoint } from './types'
import { sayDay } from './words'

export type { UsageTrack } from './types'

/**
 * A meter's readings made fit to count with: replacement, roll-over and reset bridged, what disagrees set aside.
 *
 * Shape   readings in any order, of one meter place on one well; values in s (run time) or m³ (volume).
 * Units   `rollsAt` is the value at which the meter starts again at 0, in the unit of the readings; null where it is
 *         not known: then the use across a roll-over is not known either.
 * Answer  points in time order, what was set aside with a sentence each, the gaps over which use is unknown, and the
 *         pace. A reading that a person explained is always used; one that disagrees unexplained never is.
 * Throws  RangeError on a value below 0 or not finite, and on text that is no day: forms refuse those.
 */
export function trackUsage(readings: readonly MeterReading[], rollsAt: number | null = null): UsageTrack {
  for (const { value, id } of readings) {
    if (!(Number.isFinite(value) && value >= 0)) throw new RangeError(`meter reading ${id} is ${value}`)
  }
  const { links, left } = agreeingChain(inMeterOrder(readings))
  const gaps: UseGap[] = []
  const points: UsePoint[] = []
  links.forEach((link, i) => {
    const { reading } = link
    const before = links[i - 1]?.reading
    const step = before ? stepUse(before, link, rollsAt) : { used: null, why: null }
    if (before && step.used === null) gaps.push({ from: before.on, to: reading.on, why: step.why ?? '' })
    addPoint(points, { on: reading.on, id: reading.id, value: reading.value, used: step.used })
  })
  const last = points[points.length - 1]
  return {
    points,
    gaps,
    setAside: left.map(setAsideOf),
    pace: fitPace(knownStretches(points)),
    last: last ? { on: last.on, value: last.value } : null,
    perDayMax: fastestBelieved(links.map((link) => link.reading)),
  }
}

/**
 * Use after a day up to the last reading, s or m³.
 *
 * Answer  'estimated' where the day falls between two readings, before the first, or where a gap had to be filled
 *         from the pace. 'cannot-say' without readings, where the day lies further before the first reading than the
 *         record is long, and where a gap cannot be filled. From the last reading on, 0 up to the day itself.
 */
export function usedSince(track: UsageTrack, day: Day): Used {
  const first = track.points[0]
  const last = track.points[track.points.length - 1]
  if (!first || !last) return { kind: 'cannot-say', why: 'there is no meter reading' }
  if (day >= last.on) return { kind: 'used', used: 0, upTo: day, estimated: day > last.on }
  let used = 0
  let estimated = false
  if (day < first.on) {
    const filled = beforeFirst(track, day)
    if (filled === null) return { kind: 'cannot-say', why: tooEarly(first.on, day) }
    used += filled
    estimated = true
  }
  for (const { from, to, known } of stepsAfter(track.points, day)) {
    const whole = known ?? fromPace(track.pace, from, to)
    if (whole === null) return { kind: 'cannot-say', why: gapWhy(track, from) }
    if (known === null || from < day) estimated = true
    used += from < day ? whole * shareAfter(track.pace, from, day, to) : whole
  }
  return { kind: 'used', used, upTo: last.on, estimated }
}

/** One step between neighbouring points. `known` is null over a gap. */
export type Step = { from: Day; to: Day; known: number | null }

/** The steps of which at least a part lies after a day, in time order. */
export function stepsAfter(points: readonly UsePoint[], day: Day): Step[] {
  return points.flatMap((point, i) => {
    const before = points[i - 1]
    return before && point.on > day ? [{ from: before.on, to: point.on, known: point.used }] : []
  })
}

/** The share of a step's use that falls after a day inside it, by the season, or by plain days without a pace. */
export function shareAfter(pace: Pace, from: Day, day: Day, to: Day): number {
  if (pace.kind === 'pace') {
    const whole = weightedDays(from, to, pace.byMonth)
    if (whole > 0) return weightedDays(day, to, pace.byMonth) / whole
  }
  return daysBetween(day, to) / daysBetween(from, to)
}

/** What the pace makes of a stretch; null without a pace. */
export function fromPace(pace: Pace, from: Day, to: Day): number | null {
  return pace.kind === 'pace' ? pace.perDay * weightedDays(from, to, pace.byMonth) : null
}

/** Backward in time no further than the record reaches forward: an old duty says nothing about a new meter. */
function beforeFirst(track: UsageTrack, day: Day): number | null {
  const first = track.points[0]
  const last = track.points[track.points.length - 1]
  if (!first || !last || daysBetween(day, first.on) > daysBetween(first.on, last.on)) return null
  return fromPace(track.pace, day, first.on)
}

function tooEarly(first: Day, day: Day): string {
  return `the first meter reading is of ${sayDay(first)}, too long after ${sayDay(day)} to tell the use between`
}

function gapWhy(track: UsageTrack, from: Day): string {
  return track.gaps.find((gap) => gap.from === from)?.why ?? 'the use between two readings is not known'
}

/** The use from one kept reading to the next, or null with the reason why it cannot be known. */
function stepUse(
  before: MeterReading,
  link: Link,
  rollsAt: number | null,
): { used: number | null; why: string | null } {
  const { reading } = link
  const between = `between ${sayDay(before.on)} and ${sayDay(reading.on)}`
  const unknown = (why: string) => ({ used: null, why: `the use ${between} is not known: ${why}` })
  if (link.broken) return unknown('the readings before and after do not fit one meter')
  if (reading.explained === 'replaced') {
    // A reading of the old meter from the same day stands in for the last one taken at the change.
    const oldLast = reading.replacedFrom ?? (before.on === reading.on ? before.value : Number.NaN)
    const oldUse = oldLast - before.value
    const newUse = reading.value - (reading.replacedTo ?? reading.value)
    if (Number.isNaN(oldUse))
      return unknown('the meter was replaced and the last reading of the old one is missing')
    if (oldUse < 0) return unknown('the last reading given for the old meter is below the one before it')
    if (newUse < 0) return unknown('the new meter reads less than when it was fitted')
    return { used: oldUse + newUse, why: null }
  }
  if (reading.explained === 'rolled-over') {
    if (rollsAt === null) return unknown('the meter rolled over, and at what reading is not entered')
    if (before.value > rollsAt)
      return unknown('the reading before it is above the one at which the meter rolls over')
    return { used: rollsAt - before.value + reading.value, why: null }
  }
  if (reading.value < before.value) return unknown('the meter was set back')
  return { used: reading.value - before.value, why: null }
}

/** One point a day: the later reading of a day takes the place of the earlier, and their use adds up. */
function addPoint(points: UsePoint[], point: UsePoint): void {
  const before = points[points.length - 1]
  if (before?.on !== point.on) {
    points.push(point)
    return
  }
  const used = before.used === null || point.used === null ? null : before.used + point.used
  points[points.length - 1] = { ...point, used }
}

function knownStretches(points: readonly UsePoint[]): Stretch[] {
  return points.flatMap((point, i) => {
    const before = points[i - 1]
    return before && point.used !== null ? [{ from: before.on, to: point.on, used: point.used }] : []
  })
}

function setAsideOf({ reading, fault, against }: LeftOut): SetAside {
  const other = sayDay(against.on)
  const why = {
    backward: `it is lower than the reading of ${other}, and nobody said why`,
    'too-fast': `it is further ahead of the reading of ${other} than the meter can have run, and nobody said why`,
    'above-later': `it is higher than the reading of ${other}, which came later, and nobody said why`,
  }[fault]
  return { id: reading.id, on: reading.on, why }
}
