import { daysBetween } from '@/lib/domain/quantity/day'
import {
  type DatedReading,
  type FlowQuestion,
  flowPoints,
  flowTrend,
  flowWhenNew,
  speedRatio,
} from './flow-course'
import type { PumpPower } from './models'
import { efficiencyOf, type PumpReading } from './power'
import type { CurvePoint, PumpType } from './pump-curve'

export type PumpQuestion = {
  type: PumpType
  /** What drives it; a motor on mains turns at one speed whatever the voltage. Unknown where it is left out. */
  power?: PumpPower | null
  /** Flow, head, volts and amps together at installation, or when the present pump was put in. */
  reference: PumpReading | null
  now: PumpReading | null
  /** Flow and head of the model's sheet at the reference voltage; empty where there is none. */
  sheet?: readonly CurvePoint[]
}

/** What the pump's own readings say to "pump or well?"; plain numbers, to be weighed with what the well shows. */
export type PumpEvidence =
  | {
      kind: 'evidence'
      says: 'pump' | 'not-pump' | 'unclear'
      /** Natural logarithm of how much better a worn pump explains the flow than a sound one. */
      logOdds: number
      /** Flow now over what the pump gave when new at this head and voltage. */
      flowRatio: number
      /** Wire-to-water efficiency now over then; null where it cannot be reckoned. */
      efficiencyRatio: number | null
      /** Amps now over those expected at this head and voltage; null where none were read. */
      ampsRatio: number | null
      why: string
      next: string
    }
  | { kind: 'cannot-say'; why: string; next: string }

/** Error of the logarithm of flow over expected flow: three readings by hand; more where the curve is guessed. */
const READING_ERROR = 0.08
const GUESSED_ERROR = 0.13
/** A worn pump has lost about a quarter, give or take. */
const WORN = { mean: -0.25, deviation: 0.15 }
const PUMP_ODDS = 2
const SOUND_ODDS = -1
/** So many errors above what it gave when new are no luck of the readings: something is not as taken. */
const MORE_THAN_NEW = 3
/**
 * Whether the pump gives less than it did when new, corrected for head (along its curve) and voltage (affinity laws: a
 * direct-current motor's speed follows its voltage).
 *
 * Why so  a fallen table or a clogged well asks for more head, a low sun gives less voltage; both lower the flow of a
 *         sound pump, and both are taken out here. What is left is the pump, its brushes, or air on the suction side.
 * Answer  'cannot-say' with what to measure next, where a reading is missing, the voltages differ by over a third, or the
 *         pump seems to give clearly more than when new.
 */
export function pumpEvidence({ type, power = null, reference, now, sheet = [] }: PumpQuestion): PumpEvidence {
  const missing = missingOf(reference, now)
  if (missing !== null || !reference || !now) return missing ?? NOTHING
  const speed = speedRatio(now, reference, power)
  if (speed === null) {
    return {
      kind: 'cannot-say',
      why: 'the voltage differs from the reference by more than a third',
      next: 'measure again in full sun, flow, head, volts and amps together',
    }
  }
  const expected = flowWhenNew(type, reference, now.headM, speed, sheet)
  if (expected === null || expected.flowM3PerS <= 0) {
    return {
      kind: 'cannot-say',
      why: 'at this head even the new pump would give nothing, or its curve is not known',
      next: 'measure the levels again, and add the pump’s sheet',
    }
  }
  const flowRatio = now.flowM3PerS / expected.flowM3PerS
  return judged({ reference, now, speed }, flowRatio, errorOf(reference, now, expected.guessed))
}

/** Readings after the reference from which on a trend says more than the last of them. */
const TREND_READINGS = 3

/**
 * The same over every full reading since the reference: with three and more the level of a robust line at the newest
 * stands in for that one reading, so that neither a slip nor the luck of one day decides.
 */
export function pumpEvidenceOver(question: Omit<FlowQuestion, 'type'> & { type: PumpType }): PumpEvidence {
  const { type, power, reference, readings, sheet } = question
  const later = readings.filter(({ on }) => on > reference.on)
  const now = later.reduce<DatedReading | null>(
    (last, one) => (!last || one.on >= last.on ? one : last),
    null,
  )
  const points = flowPoints(question)
  const lone = pumpEvidence({ type, power, reference, now, sheet })
  const newest = points.at(-1)
  const speed = now && speedRatio(now, reference, power)
  if (points.length < TREND_READINGS || !newest || !now || speed === null) return lone
  const line = flowTrend(reference.on, points)
  const { mean, deviation } = line.at([1, daysBetween(reference.on, newest.on) / 365.25])
  const guessed = type === 'centrifugal' && sheet.length < 2
  const floor = guessed ? errorOf(reference, now, guessed) - READING_ERROR : 0
  const found = judged(
    { reference, now, speed },
    Math.exp(mean),
    Math.hypot(Math.max(deviation, 0.03), floor),
  )
  return found.kind === 'evidence'
    ? { ...found, why: `over ${points.length} full readings ${found.why}` }
    : found
}

const errorOf = (reference: PumpReading, now: PumpReading, guessed: boolean): number => {
  const headMoved = Math.abs(Math.log(now.headM / reference.headM))
  return guessed ? Math.hypot(READING_ERROR, GUESSED_ERROR * Math.min(1, headMoved / 0.2)) : READING_ERROR
}

const NOTHING: PumpEvidence = {
  kind: 'cannot-say',
  why: 'flow, head and volts were never read together',
  next: 'measure flow, both levels, volts and amps together',
}

function missingOf(reference: PumpReading | null, now: PumpReading | null): PumpEvidence | null {
  if (!now) return NOTHING
  if (!reference) {
    return {
      kind: 'cannot-say',
      why: 'there is no reference from when the pump was new',
      next: 'record flow, head, volts and amps now as the reference for later',
    }
  }
  const usable = (r: PumpReading) => r.flowM3PerS >= 0 && r.headM > 0 && r.volts > 0
  if (!usable(now) || !usable(reference) || reference.flowM3PerS === 0) {
    return {
      kind: 'cannot-say',
      why: 'a reading of flow, head or volts is nothing or negative',
      next: 'check those readings and their units',
    }
  }
  const impossible = [reference, now].some(
    (r) => r.amps !== null && r.amps > 0 && efficiencyOf(r).kind === 'cannot-say',
  )
  return impossible
    ? {
        kind: 'cannot-say',
        why: 'more power comes out of the pump than goes in',
        next: 'check flow, head, volts and amps, and their units',
      }
    : null
}

type Pair = { reference: PumpReading; now: PumpReading; speed: number }

function judged({ reference, now, speed }: Pair, flowRatio: number, error: number): PumpEvidence {
  // Nothing at all is as far down as a reading can say.
  const log = Math.log(Math.max(flowRatio, 0.05))
  if (log > MORE_THAN_NEW * error) return moreThanNew(flowRatio)
  const worn = Math.hypot(WORN.deviation, error)
  // A loss greater than the usual is no evidence against wear: past its middle the curve of wear stays level.
  const offWorn = Math.max(0, log - WORN.mean) / worn
  const logOdds = 0.5 * (log / error) ** 2 - 0.5 * offWorn ** 2 - Math.log(worn / error)
  // More than when new is an error of the readings, never wear.
  const signed = log > 0 ? Math.min(logOdds, SOUND_ODDS) : logOdds
  const says = signed > PUMP_ODDS ? 'pump' : signed < SOUND_ODDS + 1e-9 ? 'not-pump' : 'unclear'
  const efficiencyRatio = efficiencyRatioOf(reference, now)
  const [then, since] = [reference.amps ?? 0, now.amps ?? 0]
  const ampsRatio = then > 0 && since > 0 ? since / (then * speed ** 2) : null
  return {
    kind: 'evidence',
    says,
    logOdds: signed,
    flowRatio,
    efficiencyRatio,
    ampsRatio,
    ...words(says, flowRatio, ampsRatio),
  }
}

const moreThanNew = (flowRatio: number): PumpEvidence => ({
  kind: 'cannot-say',
  why: `by these readings the pump gives ${Math.round(100 * flowRatio)} % of what it gave when new at this head and voltage, more than a pump can: a reading is off, or its curve is not as taken`,
  next: 'check flow, levels and gauge, and measure all of them together once more',
})

function efficiencyRatioOf(reference: PumpReading, now: PumpReading): number | null {
  const [before, today] = [reference, now].map(efficiencyOf)
  return before?.kind === 'efficiency' && today?.kind === 'efficiency' && before.share > 0
    ? today.share / before.share
    : null
}

function words(
  says: 'pump' | 'not-pump' | 'unclear',
  flowRatio: number,
  ampsRatio: number | null,
): { why: string; next: string } {
  const percent = `${Math.round(100 * flowRatio)} % of what it gave when new at this head and voltage`
  if (says === 'not-pump')
    return { why: `the pump gives ${percent}`, next: 'look at the well or the water table' }
  if (says === 'unclear') {
    return {
      why: `the pump gives ${percent}, which the error of such readings leaves open`,
      next: 'measure flow, both levels, volts and amps together once more',
    }
  }
  const lookAt =
    ampsRatio === null
      ? 'measure amps; then look at impeller or diaphragm, brushes and suction leaks'
      : ampsRatio > 1.15
        ? 'amps are high: look for something that binds, bearings and brushes'
        : ampsRatio < 0.85
          ? 'amps are low: look for air on the suction side, a worn impeller or diaphragm'
          : 'amps are as they were: look at impeller or diaphragm, and for a leak between pump and gauge'
  return { why: `the pump gives only ${percent}`, next: lookAt }
}
