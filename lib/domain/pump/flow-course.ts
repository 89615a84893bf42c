import { addDays, type Day, daysBetween } from '@/lib/domain/quantity/day'
import { normalCdf } from '@/lib/domain/stats'
import type { Forecast } from './forecast'
import type { PumpPower } from './models'
import type { PumpReading } from './power'
import { type CurvePoint, flowAtHead, type PumpType, pumpCurve } from './pump-curve'
import { type RobustBelief, robustBelief } from './robust-belief'
import { thresholdDays } from './threshold-day'

export type DatedReading = PumpReading & { on: Day }

/** A full reading as a share of what the pump gave when new at this head and voltage. */
export type FlowPoint = { on: Day; share: number }

export type FlowQuestion = {
  type: PumpType
  /** What drives it: a motor on mains turns with the frequency, one on panels or a battery with its voltage. */
  power: PumpPower | null
  reference: DatedReading
  /** In any order; those before the reference are left out. */
  readings: readonly DatedReading[]
  /** Flow and head of the model's sheet at the reference voltage; empty where there is none. */
  sheet: readonly CurvePoint[]
}

/** Beyond this the affinity laws leave out too much. */
const SPEED = { least: 0.75, most: 1.33 }

/** Speed now over speed at the reference; null where the voltages are too far apart to say. */
export function speedRatio(
  now: Pick<PumpReading, 'volts'>,
  reference: Pick<PumpReading, 'volts'>,
  power: PumpPower | null,
): number | null {
  const ratio = now.volts / reference.volts
  if (!(ratio >= SPEED.least && ratio <= SPEED.most)) return null
  return power === 'mains' ? 1 : ratio
}

/**
 * Flow in m³/s that the pump gave when new at a head and speed: along its sheet, or a curve of the usual form through its
 * reference (`guessed`).
 * Answer  null where the points are of no centrifugal pump.
 */
export function flowWhenNew(
  type: PumpType,
  reference: PumpReading,
  headM: number,
  speed: number,
  sheet: readonly CurvePoint[],
): { flowM3PerS: number; guessed: boolean } | null {
  // A displacement pump moves the same volume each turn: its flow goes with speed and hardly with head.
  if (type === 'displacement') return { flowM3PerS: reference.flowM3PerS * speed, guessed: false }
  const curve = pumpCurve(sheet.length > 1 ? sheet : [reference])
  if (!curve) return null
  // The sheet tells the form of the curve; the reference tells where this very pump stood on it.
  const own = reference.flowM3PerS / Math.max(1e-9, flowAtHead(curve, reference.headM))
  return { flowM3PerS: own * flowAtHead(curve, headM, speed), guessed: curve.assumed }
}

/** Shares more than this above new are readings that do not belong together. */
const MOST_SHARE = 1.6

/** Every full reading since the reference as a share of new, in order of day; what cannot be corrected is left out. */
export function flowPoints({ type, power, reference, readings, sheet }: FlowQuestion): FlowPoint[] {
  if (!(reference.flowM3PerS > 0 && reference.headM > 0 && reference.volts > 0)) return []
  const later = readings.filter(({ on, headM }) => on > reference.on && headM > 0)
  const points = later.flatMap((now) => {
    const speed = speedRatio(now, reference, power)
    const fresh = speed === null ? null : flowWhenNew(type, reference, now.headM, speed, sheet)
    if (fresh === null || !(fresh.flowM3PerS > 0)) return []
    const share = now.flowM3PerS / fresh.flowM3PerS
    return share >= 0 && share <= MOST_SHARE ? [{ on: now.on, share }] : []
  })
  return points.sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0))
}

/** Error of the reference itself, and of one reading against it, as logarithms. */
const REFERENCE_ERROR = 0.057
const READING_ERROR = 0.057
/** What is known beforehand of how fast a pump wears, logarithm a year: little. */
const WEAR = { mean: 0, deviation: 0.12 }
/** Nothing at all is as far down as a reading can say. */
const LEAST_SHARE = 0.05

const yearsSince = (from: Day, on: Day): number => daysBetween(from, on) / 365.25

/**
 * The logarithm of the share as a line through all full readings: its level at the reference is 0 but for the error of
 * that one reading, and one bad visit cannot turn it.
 */
export function flowTrend(since: Day, points: readonly FlowPoint[]): RobustBelief {
  return robustBelief(
    points.map(({ on }) => [1, yearsSince(since, on)]),
    points.map(({ share }) => Math.log(Math.max(LEAST_SHARE, share))),
    [{ mean: 0, deviation: REFERENCE_ERROR }, WEAR],
    { scatter: READING_ERROR, readings: 4 },
  )
}

const FEWEST = 3
const SHORTEST_YEARS = 0.5
/** A fall less sure than this is no ground for a date. */
const SURE_ENOUGH = 0.9
const STEP_DAYS = 5

/**
 * The day on which the pump gives no more than a share of its flow when new, at one head and voltage, with an 80 % interval.
 *
 * Model   an even loss (a straight line in the logarithm) through all full readings since the reference.
 * Answer  'cannot-say' with fewer than three of them or over less than half a year, where they do not show a fall, or
 *         where the day lies more than fifteen years off.
 * Throws  RangeError for a share that is not between 0 and 1.
 */
export function forecastFlow(question: FlowQuestion, leastShare: number): Forecast {
  if (!(leastShare > 0 && leastShare < 1)) throw new RangeError(`least share of flow ${leastShare}`)
  const points = flowPoints(question)
  const last = points.at(-1)
  const since = question.reference.on
  if (!last || points.length < FEWEST || yearsSince(since, last.on) < SHORTEST_YEARS) {
    const have = `${points.length} full ${points.length === 1 ? 'reading' : 'readings'} of the pump since its reference`
    return { kind: 'cannot-say', why: `${have}, ${FEWEST} needed over half a year` }
  }
  const line = flowTrend(since, points)
  const limit = Math.log(leastShare)
  const chanceOn = (days: number) => {
    const { mean, deviation } = line.at([1, yearsSince(since, addDays(last.on, days))])
    return normalCdf((limit - mean) / Math.max(1e-6, deviation))
  }
  if (line.chanceBelowZero(1) < SURE_ENOUGH && chanceOn(0) < 0.5) {
    return {
      kind: 'cannot-say',
      why: 'the flow at a known head and voltage does not fall by more than its readings stray',
    }
  }
  const days = thresholdDays(last.on, chanceOn, STEP_DAYS)
  if (!days) return { kind: 'cannot-say', why: 'the flow has hardly fallen yet: no date can be given' }
  const now = Math.exp(line.at([1, yearsSince(since, last.on)]).mean)
  return {
    kind: 'date',
    ...days,
    why: `from ${points.length} full readings since ${since}, corrected for head and voltage: the pump gives about ${Math.round(100 * now)} % of its flow when new`,
    warnings: [],
  }
}
