import type { Day } from '@/lib/domain/quantity/day'
import { type CartridgeReading, type CartridgeRun, cartridgeRuns, type LoadReading } from './cartridge-runs'
import { daysToLimit, type Forecast, forecastDays, type Weighted } from './forecast'
import { type LoadBelief, type LoadPrior, loadBelief, openPrior } from './loading'
import { calendarPace, type Pace, paceOf } from './pace'

export type CartridgeQuestion = {
  /** Drop at the reference flow at which the cartridge is done, Pa. */
  terminalPa: number
  referenceFlowM3PerS: number
  changes: readonly Day[]
  readings: readonly CartridgeReading[]
}

/** A cartridge lasts some nine months of the well's own use, give or take a factor of three, until it tells otherwise. */
const USUAL_LIFE_DAYS = 270
/** How much cartridges on one well differ (standard deviation of the logarithm) before their own record says so. */
const BETWEEN_CARTRIDGES = 0.3
const CLEAN_BETWEEN = 0.2
/** A reading this many scatters off the law is not believed at once. */
const SLIP = 4
const READINGS_MIN = 3

/**
 * The day on which the cartridge in place reaches its terminal drop at the reference flow, with an 80 % interval.
 *
 * Model   drop = clean drop × (flow / reference)^n × growth(volume since change); five growth laws and n are carried
 *         side by side and weighed by the readings; earlier cartridges of the same well pull the belief as far as
 *         they agree with each other (partial pooling). Volume to date by the well's own pace with its season.
 * Shape   `changes` are days on which a new cartridge was put in; readings in any order.
 * Answer  'cannot-say' with fewer than three readings of this cartridge and nothing to learn from earlier ones, or
 *         where the drop grows so little that the day lies more than fifteen years off.
 *         Without volumes days stand in for them, and `why` says so.
 * Throws  RangeError for a terminal drop or reference flow that is not above zero, or a reading that is not finite.
 * Source  growth: Hermia 1982; the rest is Bayes' rule on a grid.
 */
export function forecastCartridge(question: CartridgeQuestion): Forecast {
  requireQuestion(question)
  const runs = cartridgeRuns(question.readings, question.changes, question.referenceFlowM3PerS)
  const current = runs.at(-1)
  if (!current) return { kind: 'cannot-say', why: 'no cartridge change and no pressure drop is recorded' }
  const pace = current.by === 'volume' ? (paceOf(countsOf(question.readings)) ?? null) : calendarPace()
  if (!pace)
    return { kind: 'cannot-say', why: 'the volume meter does not move: read it with each pressure drop' }
  const learned = learn(runs.slice(0, -1), current.by, question.terminalPa, pace)
  if (current.changedOn === null && learned.from === 0 && current.readings.length < READINGS_MIN + 2) {
    return { kind: 'cannot-say', why: 'it is not recorded when this cartridge was put in' }
  }
  if (current.readings.length < READINGS_MIN && learned.from < 2) {
    return {
      kind: 'cannot-say',
      why: `${current.readings.length} pressure drops of this cartridge, ${READINGS_MIN} needed`,
    }
  }
  const { belief, warnings, offset } = believe(current.readings, question.terminalPa, learned.prior)
  const last = current.readings.at(-1)
  const from = last?.on ?? current.changedOn
  if (from === null || from === undefined)
    return { kind: 'cannot-say', why: 'no reading and no change is recorded' }
  const limits = offset > 0 ? brought(belief, offset) : belief.limits
  const days = forecastDays(limits, last?.used ?? 0, from, pace)
  if (!days)
    return { kind: 'cannot-say', why: 'the pressure drop has hardly grown yet: no date can be given' }
  return { kind: 'date', ...days, why: whyOf(current, learned.from), warnings }
}

function requireQuestion(question: CartridgeQuestion): void {
  if (!(question.terminalPa > 0) || !(question.referenceFlowM3PerS > 0)) {
    throw new RangeError(
      `terminal drop ${question.terminalPa} Pa, reference flow ${question.referenceFlowM3PerS} m³/s`,
    )
  }
  for (const r of question.readings) {
    const numbers = [r.dropPa, r.volumeM3 ?? 0, r.flowM3PerS ?? 0]
    if (!numbers.every(Number.isFinite)) throw new RangeError(`reading of ${r.on} is not finite`)
  }
}

const countsOf = (readings: readonly CartridgeReading[]) =>
  readings.flatMap((r) => (r.volumeM3 === null ? [] : [{ on: r.on, count: r.volumeM3 }]))

/**
 * What earlier cartridges of this well teach about the next: each one's own belief, weighed by how sure it is and by
 * how much they differ among each other (random effects), over a weak belief about cartridges at large.
 */
function learn(
  earlier: readonly CartridgeRun[],
  by: CartridgeRun['by'],
  terminalPa: number,
  pace: Pace,
): { prior: LoadPrior; from: number } {
  const open = openPrior(terminalPa, USUAL_LIFE_DAYS * pace.perDay)
  const beliefs = earlier
    .filter((run) => run.by === by && run.changedOn !== null && run.readings.length >= READINGS_MIN)
    .map((run) => believe(run.readings, terminalPa, open).belief)
    .filter((belief) => belief.limitLog.deviation < 0.6)
  if (beliefs.length === 0) return { prior: open, from: 0 }
  const limitLog = pooled(
    open.limitLog,
    beliefs.map((b) => b.limitLog),
    BETWEEN_CARTRIDGES,
  )
  const cleanLog = pooled(
    open.cleanLog,
    beliefs.map((b) => b.cleanLog),
    CLEAN_BETWEEN,
  )
  return {
    prior: {
      limitLog,
      cleanLog,
      shapes: mixed(
        open.shapes,
        beliefs.map((b) => b.shapes),
      ),
      powers: mixed(
        open.powers,
        beliefs.map((b) => b.powers),
      ),
    },
    from: beliefs.length,
  }
}

type Normal = { mean: number; deviation: number }

function pooled(open: Normal, seen: readonly Normal[], usualBetween: number): Normal {
  const middle = seen.reduce((sum, s) => sum + s.mean, 0) / seen.length
  const squares = seen.reduce((sum, s) => sum + (s.mean - middle) ** 2, 0)
  const between2 = (4 * usualBetween ** 2 + squares) / (4 + seen.length - 1)
  let precision = 1 / open.deviation ** 2
  let weighted = open.mean * precision
  for (const s of seen) {
    const weight = 1 / (s.deviation ** 2 + between2)
    precision += weight
    weighted += weight * s.mean
  }
  return { mean: weighted / precision, deviation: Math.sqrt(1 / precision + between2) }
}

/** Half of the belief about law and power stays with cartridges at large, less with each earlier one. */
function mixed(open: readonly number[], seen: readonly (readonly number[])[]): number[] {
  return open.map((share, k) => {
    const sum = seen.reduce((all, s) => all + (s[k] ?? 0), 0)
    return (2 * share + sum) / (2 + seen.length)
  })
}

type Believed = { belief: LoadBelief; warnings: string[]; offset: number }

/**
 * The belief with slips put aside. Readings far off the law lose their weight; where the last one or two leapt and
 * still stand above what all before them expect, an event has blinded the cartridge (`offset`, in logarithms).
 */
function believe(readings: readonly LoadReading[], terminalPa: number, prior: LoadPrior): Believed {
  const without = (slips: readonly boolean[]) =>
    loadBelief(
      readings,
      terminalPa,
      prior,
      slips.map((slip) => (slip ? 400 : 1)),
    )
  const tail = leapt(readings)
  if (tail > 0) {
    const tailFrom = readings.length - tail
    const before = without(readings.map((_, i) => i >= tailFrom))
    const above = before.misfits.slice(tailFrom)
    if (above.every((m) => m > Math.max(0.35, SLIP * before.scatter))) return blinded(readings, before, above)
  }
  const first = without(readings.map(() => false))
  const slips = slipsOf(first, readings)
  if (!slips.some(Boolean)) return { belief: first, warnings: [], offset: 0 }
  const warnings = readings.flatMap((r, i) =>
    slips[i] ? [`the drop of ${r.on} does not fit the others and was left out: read it again`] : [],
  )
  return { belief: without(slips), warnings, offset: 0 }
}

/** One leap may be a slip and only warns; two that stay are carried on into the date. */
function blinded(readings: readonly LoadReading[], belief: LoadBelief, above: readonly number[]): Believed {
  const jump = median(above)
  const times = Math.exp(jump).toFixed(1)
  if (above.length === 1) {
    const warning = `the drop of ${readings.at(-1)?.on} is ${times} times what the others expect: read it again; if it holds, a flood or iron bloom has blinded the cartridge and it needs changing now`
    return { belief, warnings: [warning], offset: 0 }
  }
  const warning = `the drop jumped to ${times} times its course and stayed: an event (flood, iron bloom) has blinded the cartridge`
  return { belief, warnings: [warning], offset: jump }
}

/** Readings far off in the misfits' own middle spread, so that one slip cannot hide in the scatter it makes. */
function slipsOf(belief: LoadBelief, readings: readonly LoadReading[]): boolean[] {
  if (readings.length < READINGS_MIN + 1) return readings.map(() => false)
  const middle = median(belief.misfits)
  const spread = Math.max(0.06, 1.4826 * median(belief.misfits.map((m) => Math.abs(m - middle))))
  return belief.misfits.map((m, i) => {
    const gauge = Math.sqrt(1 + (20_000 / (readings[i]?.dropPa ?? 1)) ** 2)
    return Math.abs(m - middle) > Math.max(0.25, 0.7 * SLIP * spread * gauge)
  })
}

/** How many of the last readings (0, 1 or 2) stand more than 1.6 times above the one before them at equal flow. */
function leapt(readings: readonly LoadReading[]): 0 | 1 | 2 {
  if (readings.length < READINGS_MIN + 1) return 0
  const level = (r: LoadReading | undefined) =>
    r ? Math.log(r.dropPa) - 1.4 * Math.log(r.flowRatio ?? 1) : 0
  const [c, b, a] = [level(readings.at(-1)), level(readings.at(-2)), level(readings.at(-3))]
  if (c - b > Math.log(1.6)) return 1
  return readings.length > READINGS_MIN + 1 && Math.min(b, c) - a > Math.log(1.6) ? 2 : 0
}

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor((values.length - 1) / 2)] ?? 0

/** After a jump the terminal drop is that much nearer: on a log scale of drop, as far as the law's own growth goes. */
function brought(belief: LoadBelief, offset: number): Weighted[] {
  const full = Math.max(0.2, Math.log(1 / 0.2))
  const left = Math.max(0.02, 1 - offset / full)
  return belief.limits.map((l) => ({ value: l.value * left, weight: l.weight }))
}

function whyOf(current: CartridgeRun, learnedFrom: number): string {
  const own = `${current.readings.length} pressure drops of this cartridge`
  const others =
    learnedFrom === 0 ? '' : ` and ${learnedFrom} earlier ${learnedFrom === 1 ? 'one' : 'ones'} on this well`
  const by = current.by === 'volume' ? '' : '; volumes are missing, so days stand in for them'
  return `from ${own}${others}${by}`
}

export type LearnedInterval =
  | { kind: 'interval'; days: number; volumeM3: number | null; medianDays: number; from: number }
  | { kind: 'cannot-say'; why: string }

/**
 * The change interval that this well's own cartridges suggest, offered beside the fixed one and never imposed.
 *
 * Cost rule  a change too late (short water, a burst cartridge, a second trip) is taken to cost `lateOverEarly` times
 *            one as much too early; the cheapest day is then the 1/(1 + lateOverEarly) quantile of the life.
 * Answer     'cannot-say' before two cartridges have been followed.
 */
export function learnedInterval(question: CartridgeQuestion, lateOverEarly = 3): LearnedInterval {
  requireQuestion(question)
  const runs = cartridgeRuns(question.readings, question.changes, question.referenceFlowM3PerS)
  const by = runs.at(-1)?.by ?? 'days'
  const pace = by === 'volume' ? paceOf(countsOf(question.readings)) : calendarPace()
  if (!pace) return { kind: 'cannot-say', why: 'the volume meter does not move' }
  const { prior, from } = learn(runs, by, question.terminalPa, pace)
  if (from < 2) return { kind: 'cannot-say', why: `${from} cartridges followed through, 2 needed` }
  const lives: Weighted[] = []
  for (let z = -3; z <= 3; z += 0.1) {
    lives.push({
      value: Math.exp(prior.limitLog.mean + z * prior.limitLog.deviation),
      weight: Math.exp((-z * z) / 2),
    })
  }
  const start = runs.at(-1)?.changedOn ?? null
  if (start === null) return { kind: 'cannot-say', why: 'it is not recorded when cartridges were put in' }
  const [days, medianDays] = daysToLimit(lives, 0, start, pace, [1 / (1 + lateOverEarly), 0.5])
  if (days === null || days === undefined || medianDays === null || medianDays === undefined) {
    return { kind: 'cannot-say', why: 'cartridges of this well last longer than can be planned' }
  }
  const volumeM3 = by === 'volume' ? pace.ahead(start, days).mean : null
  return { kind: 'interval', days, volumeM3, medianDays, from }
}
