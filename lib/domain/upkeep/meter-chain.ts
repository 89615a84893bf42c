/**
 * Which readings of a meter agree with each other.
 *
 * A reading that runs backward, or ahead faster than the meter can, is left out; which one of two that disagree is
 * decided by the longest agreement with all the others, so that one slipped digit does not cost the readings after
 * it. Several readings in a row that agree among themselves, but not with those before, show a meter that was
 * changed or reset without a word: they are kept, and the use across is unknown.
 */
import { daysBetween } from '@/lib/domain/quantity'
import { median } from '@/lib/domain/stats'
import type { MeterReading } from './types'

/** A run-time meter cannot gain more than 24 h a day; as m³ the same figure is far beyond any shallow well. */
const PER_DAY_MAX = 86_400
/** Leaving out three readings costs more than a break, leaving out two costs less. */
const BREAK_COST = 2.5
/** Of two ways to agree at equal cost, the one without a step this much faster than the middle pace is taken. */
const HASTE_COST = 0.25
const TIMES_MIDDLE = 3
const EXPLAINED_COST = 1e6
/** A last stretch this many times as fast as any other is not believed without a word from the reader. */
const TIMES_FASTEST = 10
const PACES_MIN = 5
const PACE_DAYS_MIN = 365

/** `broken` where this reading disagrees with the one before, and nobody explained it. */
export type Link = { reading: MeterReading; broken: boolean }
/** A reading that disagrees with a kept neighbour: lower or too far ahead of an earlier, or above a later one. */
export type LeftOut = {
  reading: MeterReading
  fault: 'backward' | 'too-fast' | 'above-later'
  against: MeterReading
}
export type Chain = { links: Link[]; left: LeftOut[] }

/**
 * The one fixed order: by day, then value and id. On the day of a change of meters, readings that are lower than the
 * last one of an earlier day are the new meter's and come after the change; the others are the old one's.
 */
export function inMeterOrder(readings: readonly MeterReading[]): MeterReading[] {
  const sorted = [...readings].sort(
    (a, b) =>
      compare(a.on, b.on) ||
      Number(a.explained !== null) - Number(b.explained !== null) ||
      a.value - b.value ||
      compare(a.id, b.id),
  )
  const ordered: MeterReading[] = []
  for (let i = 0; i < sorted.length; ) {
    const day = sorted[i]?.on
    let end = i
    while (sorted[end]?.on === day) end++
    ordered.push(...oldMeterFirst(sorted.slice(i, end), ordered[ordered.length - 1]?.value ?? 0))
    i = end
  }
  return ordered
}

function oldMeterFirst(sameDay: MeterReading[], lastValue: number): MeterReading[] {
  if (!sameDay.some(({ explained }) => explained === 'replaced')) return sameDay
  const isNew = ({ explained, value }: MeterReading) => explained === null && value < lastValue
  return [...sameDay.filter((reading) => !isNew(reading)), ...sameDay.filter(isNew)]
}

/**
 * The readings that agree, and those left out.
 * Shape   readings in meter order.
 * Cost    linear where all agree, else the square of their number.
 */
export function agreeingChain(readings: readonly MeterReading[]): Chain {
  const perDayMax = fastestBelieved(readings)
  const agree = (a: MeterReading, b: MeterReading) => stepFault(a, b, perDayMax) === null
  if (readings.every((reading, i) => i === 0 || agree(readings[i - 1] ?? reading, reading))) {
    return { links: readings.map((reading) => ({ reading, broken: false })), left: [] }
  }
  const links = cheapestChain(readings, stepCost(readings, agree))
  const kept = new Set(links.map((link) => link.reading))
  const left = readings.flatMap((reading, i) =>
    kept.has(reading) ? [] : [faultAgainst(readings, i, kept, perDayMax)],
  )
  return { links, left }
}

/**
 * More use a day than this is not believed: ten times the second fastest pace of the record, so that the doubtful
 * step itself does not set the mark; the meter's own bound where the record is short.
 */
export function fastestBelieved(readings: readonly MeterReading[]): number {
  const first = readings[0]
  const last = readings[readings.length - 1]
  if (!first || !last || daysBetween(first.on, last.on) < PACE_DAYS_MIN) return PER_DAY_MAX
  const paces = forwardPaces(readings)
  const second = paces.sort((a, b) => b - a)[1]
  if (paces.length < PACES_MIN || second === undefined || second <= 0) return PER_DAY_MAX
  return Math.min(PER_DAY_MAX, TIMES_FASTEST * second)
}

/** Use a day over each step that does not run backward. */
function forwardPaces(readings: readonly MeterReading[]): number[] {
  return readings.slice(1).flatMap((reading, i) => {
    const before = readings[i] ?? reading
    const days = daysBetween(before.on, reading.on)
    return days > 0 && reading.value >= before.value ? [(reading.value - before.value) / days] : []
  })
}

function stepFault(a: MeterReading, b: MeterReading, perDayMax: number): 'backward' | 'too-fast' | null {
  if (b.explained !== null) return null
  if (b.value < a.value) return 'backward'
  const daysMost = daysBetween(a.on, b.on) + 1
  return b.value - a.value > perDayMax * daysMost ? 'too-fast' : null
}

type Choice = { cost: number; from: number; broken: boolean }

/** What it costs to believe that one reading follows another. */
function stepCost(
  readings: readonly MeterReading[],
  agree: (a: MeterReading, b: MeterReading) => boolean,
): (a: MeterReading, b: MeterReading) => number {
  const moving = forwardPaces(readings).filter((pace) => pace > 0)
  const haste = moving.length > 0 ? TIMES_MIDDLE * median(moving) : Number.POSITIVE_INFINITY
  return (a, b) => {
    if (!agree(a, b)) return BREAK_COST
    const days = Math.max(1, daysBetween(a.on, b.on))
    return b.explained === null && (b.value - a.value) / days > haste ? HASTE_COST : 0
  }
}

/** Each reading left out costs 1, each unexplained break BREAK_COST; what a person explained always stays. */
function cheapestChain(
  readings: readonly MeterReading[],
  costOf: (a: MeterReading, b: MeterReading) => number,
): Link[] {
  const skipped = skipCosts(readings)
  const choices: Choice[] = []
  readings.forEach((reading, i) => {
    let choice: Choice = { cost: skipped(0, i), from: -1, broken: false }
    for (let j = i - 1; j >= 0; j--) {
      const before = readings[j]
      const soFar = (choices[j]?.cost ?? 0) + skipped(j + 1, i)
      if (!before || soFar >= choice.cost) continue
      const step = costOf(before, reading)
      if (soFar + step < choice.cost) choice = { cost: soFar + step, from: j, broken: step >= BREAK_COST }
    }
    choices.push(choice)
  })
  return traceBack(readings, choices, (i) => skipped(i + 1, readings.length))
}

/** The cost of leaving out readings i to j - 1. */
function skipCosts(readings: readonly MeterReading[]): (i: number, j: number) => number {
  const before = [0]
  for (const { explained } of readings) {
    before.push((before[before.length - 1] ?? 0) + (explained === null ? 1 : EXPLAINED_COST))
  }
  return (i, j) => (before[j] ?? 0) - (before[i] ?? 0)
}

/** Of two equal ends the earlier: a newcomer that disagrees waits for one more reading to bear it out. */
function traceBack(
  readings: readonly MeterReading[],
  choices: readonly Choice[],
  skippedAfter: (i: number) => number,
): Link[] {
  let end = 0
  choices.forEach(({ cost }, i) => {
    if (cost + skippedAfter(i) < (choices[end]?.cost ?? 0) + skippedAfter(end)) end = i
  })
  const links: Link[] = []
  for (let i = end; i >= 0; i = choices[i]?.from ?? -1) {
    const reading = readings[i]
    if (reading) links.push({ reading, broken: choices[i]?.broken ?? false })
  }
  return links.reverse()
}

/** Why a reading was left out, seen from its neighbours in the chain. */
function faultAgainst(
  readings: readonly MeterReading[],
  at: number,
  kept: ReadonlySet<MeterReading>,
  perDayMax: number,
): LeftOut {
  const reading = readings[at]
  if (!reading) throw new RangeError(`no reading ${at}`)
  const before = readings.slice(0, at).findLast((other) => kept.has(other))
  const fault = before ? stepFault(before, reading, perDayMax) : null
  if (before && fault) return { reading, fault, against: before }
  const after = readings.slice(at + 1).find((other) => kept.has(other))
  if (!after) throw new RangeError('a reading that agrees with its neighbours was left out')
  return { reading, fault: reading.value > after.value ? 'above-later' : 'too-fast', against: after }
}

function compare(a: string, b: string): -1 | 0 | 1 {
  if (a === b) return 0
  return a < b ? -1 : 1
}
