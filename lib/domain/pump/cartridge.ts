import type { Day } from '@/lib/domain/quantity/day'
import { believe, type CartridgeEvent, READINGS_MIN } from './cartridge-belief'
import { learn } from './cartridge-learning'
import { type CartridgeReading, type CartridgeRun, cartridgeRuns } from './cartridge-runs'
import { type Forecast, forecastDays } from './forecast'
import { type Count, calendarPace, type Pace, paceOf } from './pace'

export type CartridgeQuestion = {
  /** Drop at the reference flow at which the cartridge is done, Pa. */
  terminalPa: number
  referenceFlowM3PerS: number
  /** Deviation of the logarithm of that flow where it is the middle of few readings; 0 or left out where it is set. */
  referenceFlowDoubt?: number
  /** Days on which something befell the well that can blind a cartridge, with the word for it ("flood"). */
  events?: readonly CartridgeEvent[]
  /** Every count of the volume meter, where it was also read without a drop: m³. */
  volumes?: readonly Count[]
  changes: readonly Day[]
  readings: readonly CartridgeReading[]
}

/**
 * The day on which the cartridge in place reaches its terminal drop at the reference flow, with an 80 % interval.
 *
 * Model   drop = clean drop × (flow / reference)^n × growth(volume since change); growth laws are carried side by side and
 *         weighed, n with them, by the readings; earlier cartridges of the same well pull the belief as far as
 *         they agree with each other (partial pooling). Volume to date by the well's own pace with its season.
 * Shape   `changes` are days on which a new cartridge was put in; readings in any order.
 * Answer  'cannot-say' with fewer than three readings of this cartridge and nothing to learn from earlier ones, or
 *         where the drop grows so little that the day lies more than fifteen years off.
 *         Without volumes days stand in for them, and `why` says so.
 * Throws  RangeError for a terminal drop or reference flow that is not above zero, or a reading that is not finite.
 * Source  growth: Hermia 1982; the rest is Bayes' rule on a grid.
 */
export function forecastCartridge(question: CartridgeQuestion): Forecast {
  requireCartridgeQuestion(question)
  const runs = cartridgeRuns(
    question.readings,
    question.changes,
    question.referenceFlowM3PerS,
    question.volumes,
  )
  const current = runs.at(-1)
  if (!current) return { kind: 'cannot-say', why: 'no cartridge change and no pressure drop is recorded' }
  const pace = cartridgePace(question, current.by)
  if (!pace)
    return { kind: 'cannot-say', why: 'the volume meter does not move: read it with each pressure drop' }
  const learned = learn(runs.slice(0, -1), current.by, question.terminalPa, pace)
  if (current.changedOn === null && learned.from === 0 && current.readings.length < READINGS_MIN + 2) {
    return { kind: 'cannot-say', why: 'it is not recorded when this cartridge was put in' }
  }
  if (current.readings.length < READINGS_MIN && learned.from < 2) {
    return {
      kind: 'cannot-say',
      why: `${dropsOf(current)}, ${READINGS_MIN} needed`,
    }
  }
  const { limits, warnings } = believe(current.readings, beliefQuestion(question), learned.prior)
  const last = current.readings.at(-1)
  const from = last?.on ?? current.changedOn
  if (from === null || from === undefined)
    return { kind: 'cannot-say', why: 'no reading and no change is recorded' }
  const used = last?.used ?? 0
  const days = forecastDays(limits, used, from, pace)
  if (!days)
    return { kind: 'cannot-say', why: 'the pressure drop has hardly grown yet: no date can be given' }
  return { kind: 'date', ...days, why: whyOf(current, learned.from, question), warnings }
}

/** Throws RangeError for a question that cannot be: see forecastCartridge. */
export function requireCartridgeQuestion(question: CartridgeQuestion): void {
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

/** How fast this well uses its cartridges: by volume where that is read, else by the calendar; null for a still meter. */
export function cartridgePace(question: CartridgeQuestion, by: CartridgeRun['by']): Pace | null {
  return by === 'volume' ? paceOf(question.volumes ?? countsOf(question.readings)) : calendarPace()
}

/** What the belief needs of the question. */
export const beliefQuestion = (question: CartridgeQuestion) => ({
  terminalPa: question.terminalPa,
  flowDoubt: question.referenceFlowDoubt ?? 0,
  events: question.events ?? [],
})

const dropsOf = ({ readings }: CartridgeRun): string =>
  `${readings.length} pressure ${readings.length === 1 ? 'drop' : 'drops'} of this cartridge`

function whyOf(current: CartridgeRun, learnedFrom: number, question: CartridgeQuestion): string {
  const own = dropsOf(current)
  const others =
    learnedFrom === 0 ? '' : ` and ${learnedFrom} earlier ${learnedFrom === 1 ? 'one' : 'ones'} on this well`
  const by = current.by === 'volume' ? '' : '; volumes are missing, so days stand in for them'
  const flow = question.referenceFlowDoubt
    ? '; no reference flow is set, so the middle of the flows read stands in'
    : ''
  return `from ${own}${others}${by}${flow}`
}
