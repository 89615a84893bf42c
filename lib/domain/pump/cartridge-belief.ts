import type { Day } from '@/lib/domain/quantity/day'
import type { LoadReading } from './cartridge-runs'
import type { Weighted } from './forecast'
import type { LoadPrior } from './load-prior'
import { expectedLog, type LoadBelief, loadBelief } from './loading'

/** Something that befell the well and can blind a cartridge, with the word for it: "flood". */
export type CartridgeEvent = { on: Day; what: string }

export type BeliefQuestion = {
  terminalPa: number
  /** Deviation of the logarithm of the reference flow. */
  flowDoubt: number
  events: readonly CartridgeEvent[]
}

/** An event that closed much of a cartridge at once. */
export type Blinding = { on: Day; times: number; event: string | null; certain: boolean }

export type Believed = {
  belief: LoadBelief
  /** Belief about the use at the terminal drop, after what an event took. */
  limits: Weighted[]
  warnings: string[]
  blinding: Blinding | null
  /** For each reading whether it was left out. */
  slips: boolean[]
}

/** A reading this many scatters off the law is left out; digits that slip and units mixed up are off by more. */
const SLIP = 4
const SLIP_LEAST = 0.5
/** An event at least multiplies the drop by 1.4, and by more than three deviations of what was expected. */
const LEAP = 0.35
const SURPRISE = 3
export const READINGS_MIN = 3

/**
 * The belief with slips put aside. Readings far off the law lose their weight; where the last one or two leapt and
 * still stand above what all before them expect, an event has blinded the cartridge.
 */
export function believe(
  readings: readonly LoadReading[],
  question: BeliefQuestion,
  prior: LoadPrior,
): Believed {
  const odd = oddOnesOut(readings)
  const without = (slips: readonly boolean[], jump = 0) =>
    loadBelief(
      readings,
      { ...question, jump },
      prior,
      slips.map((slip) => (slip ? 1e4 : 1)),
    )
  const kept = readings.flatMap((reading, i) => (odd[i] ? [] : [reading]))
  const tail = leapt(kept)
  if (tail > 0) {
    const leapers = kept.slice(-tail)
    const before = without(readings.map((r, i) => odd[i] === true || leapers.includes(r)))
    const leaps = leapers.map((reading) => {
      const expected = expectedLog(before, reading)
      return { above: Math.log(reading.dropPa) - expected.mean, deviation: expected.deviation }
    })
    if (leaps.every(({ above, deviation }) => above > Math.max(LEAP, SURPRISE * deviation))) {
      const above = leaps.map((leap) => leap.above)
      const after = (jump: number) =>
        without(
          readings.map((r, i) => odd[i] === true || leapers.includes(r)),
          jump,
        )
      return blinded(kept, { before, after }, above, question, odd)
    }
  }
  const first = without(odd)
  const found = slipsOf(first, readings)
  const slips = readings.map((_, i) => odd[i] === true || found[i] === true)
  const belief = slips.every((slip, i) => slip === odd[i]) ? first : without(slips)
  return { belief, limits: belief.limits, warnings: slipWarnings(readings, slips), blinding: null, slips }
}

const slipWarnings = (readings: readonly LoadReading[], slips: readonly boolean[]): string[] =>
  readings.flatMap((r, i) =>
    slips[i] ? [`the drop of ${r.on} does not fit the others and was left out: read it again`] : [],
  )

/** Off by this factor from both neighbours, at equal flow: a digit slipped or another unit. */
const ODD = Math.log(3)

/**
 * Readings that no course could hold, told before any law is laid through them: a drop only grows, so the middle of
 * three neighbours lies between the others (running median of three: Tukey 1977, from memory). The last may have leapt,
 * which is not for here; it may not have fallen.
 */
function oddOnesOut(readings: readonly LoadReading[]): boolean[] {
  const levels = readings.map(levelOf)
  if (levels.length < READINGS_MIN + 1) return levels.map(() => false)
  return levels.map((level, i) => {
    const last = i === levels.length - 1
    const from = Math.min(Math.max(i - 1, 0), levels.length - 3)
    const off = level - median(levels.slice(from, from + 3))
    return last ? off < -ODD : Math.abs(off) > ODD
  })
}

/**
 * One leap may be a slip and only warns; two that stay, or one after a recorded event, are carried on into the date:
 * the terminal drop is then reached by so much less growth.
 */
function blinded(
  readings: readonly LoadReading[],
  beliefs: { before: LoadBelief; after: (jump: number) => LoadBelief },
  above: readonly number[],
  question: BeliefQuestion,
  slips: boolean[],
): Believed {
  const jump = median(above)
  const times = Math.exp(jump)
  const on = readings[readings.length - above.length]?.on ?? ''
  const event = eventBefore(readings, above.length, question.events)
  const certain = above.length > 1 || event !== null
  const blinding: Blinding = { on, times, event, certain }
  if (!certain) {
    const warning = `the drop of ${on} is ${times.toFixed(1)} times what the others expect: read it again; if it holds, a flood or iron bloom has blinded the cartridge and it needs changing now`
    return { belief: beliefs.before, limits: beliefs.before.limits, warnings: [warning], blinding, slips }
  }
  const cause = event ?? 'an event (flood, iron bloom)'
  const stayed = above.length > 1 ? ' and stayed' : ''
  const warning = `the drop jumped to ${times.toFixed(1)} times its course${stayed}: ${cause} has blinded the cartridge`
  const { limits } = beliefs.after(jump)
  return { belief: beliefs.before, limits, warnings: [warning], blinding, slips }
}

/** The word of the last recorded event between the last reading on course and the first that leapt. */
function eventBefore(
  readings: readonly LoadReading[],
  leaps: number,
  events: readonly CartridgeEvent[],
): string | null {
  const first = readings[readings.length - leaps]
  const before = readings[readings.length - leaps - 1]
  if (!first || !before) return null
  const between = events.filter((event) => event.on >= before.on && event.on <= first.on)
  const last = between.sort((a, b) => (a.on < b.on ? -1 : 1)).at(-1)
  return last ? `the ${last.what} of ${last.on}` : null
}

/** Readings far off in the misfits' own middle spread, so that one slip cannot hide in the scatter it makes. */
function slipsOf(belief: LoadBelief, readings: readonly LoadReading[]): boolean[] {
  if (readings.length < READINGS_MIN + 1) return readings.map(() => false)
  const middle = median(belief.misfits)
  const spread = Math.max(0.06, 1.4826 * median(belief.misfits.map((m) => Math.abs(m - middle))))
  return belief.misfits.map((m, i) => {
    const gauge = Math.sqrt(1 + (20_000 / (readings[i]?.dropPa ?? 1)) ** 2)
    return Math.abs(m - middle) > Math.max(SLIP_LEAST, 0.7 * SLIP * spread * gauge)
  })
}

/** How many of the last readings (0, 1 or 2) stand more than 1.6 times above the one before them at equal flow. */
function leapt(readings: readonly LoadReading[]): 0 | 1 | 2 {
  if (readings.length < READINGS_MIN + 1) return 0
  const [c = 0, b = 0, a = 0] = [-1, -2, -3].map((i) => {
    const reading = readings.at(i)
    return reading ? levelOf(reading) : 0
  })
  if (c - b > Math.log(1.6)) return 1
  return readings.length > READINGS_MIN + 1 && Math.min(b, c) - a > Math.log(1.6) ? 2 : 0
}

/** Logarithm of a drop carried to the reference flow, near enough to tell leaps. */
const levelOf = (r: LoadReading): number => Math.log(r.dropPa) - 1.4 * Math.log(r.flowRatio ?? 1)

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor((values.length - 1) / 2)] ?? 0
