import { type CapacityFit, chanceOf } from './capacity'
import { type Course, logLeft, logOddsOf } from './effect'
import { DOUBT, HORIZON_YEARS, type Moment, SLICES } from './outlook'
import { CAPACITY, TABLE } from './priors'
import type { WellRecord } from './record'

/** Water kept over the intake, m. Common practice, no published source. */
const INTAKE_COVER_M = 0.3
/** How many ways it may go are followed to their end. */
const HOW_MANY = 220
/** Least thickness that still counts, m: the power law ends where the layer does. */
const THIN_M = 0.3

type Loss = Pick<Course, 'onsetYears' | 'shape' | 'rate'>

/**
 * When capacity × available drawdown at the low of the season no longer carries the demand.
 *
 * Losses, falls, and what is not known of today's capacity and level are drawn together: evenly spread points, each a
 * way that agrees with the readings, followed to the day it falls short. Later than the horizon counts as never.
 *
 * Shape   `losing`: whether a loss is carried forward; `fit` and `record` of the same well.
 * Answer  moments of equal share, years from the record's origin.
 * Source  points by the additive recurrence of the generalised golden ratio (Roberts 2018, from memory).
 */
export function momentsBelowDemand(
  { record, fit, losing }: { record: WellRecord; fit: CapacityFit; losing: boolean },
  well: { demandM3PerS: number; intakeDepthM: number },
): Moment[] {
  const { table } = record
  const todayYears = record.years[record.years.length - 1] ?? 0
  const lossOf = drawFrom(fit.courses, losing ? 1 : 0, CAPACITY.loss.low / 2)
  const fallOf = drawFrom(table.courses, chanceOf(table.logOdds, TABLE.oddsBeforehand), TABLE.fall.low / 4)
  const { mean, sd: powerSd } = fit.learned.thicknessPower
  const power = Math.max(0, mean)
  const flatSd = Math.hypot(
    1 / Math.sqrt(fit.weights.reduce((sum, w) => sum + w, 0)),
    record.flow.noiseSd / Math.sqrt(Math.max(1, record.has.flow)),
  )
  return WAYS.map((way) => {
    const loss = lossOf(way.lossPart, way.lossSlice)
    const fall = fallOf(way.fallPart, way.fallSlice)
    const lowM = table.lowGiven(fall) + way.levelSlice * table.lowSdM
    const thickM = Math.max(THIN_M, record.bottomM - lowM)
    const thinning = Math.log(thickM / record.usualThicknessM)
    const logFresh = freshLogCapacity(loss, fit) + way.capacitySlice * Math.hypot(flatSd, powerSd * thinning)
    const short = (years: number): boolean => {
      const fallenM = fall ? fall.rate * Math.max(0, years - fall.onsetYears) : 0
      const leftM = well.intakeDepthM - INTAKE_COVER_M - lowM - fallenM
      if (!(leftM > 0)) return true
      const thick = power * Math.log(Math.max(THIN_M, thickM - fallenM) / record.usualThicknessM)
      const lost = loss ? logLeft(loss, years - loss.onsetYears) : 0
      return logFresh + thick + lost + Math.log(leftM) < Math.log(well.demandM3PerS)
    }
    return { years: firstTime(short, todayYears + HORIZON_YEARS), share: 1 / HOW_MANY }
  })
}

/** Powers of one over the root of x^7 = x + 1: steps that fill six dimensions evenly. */
const ROOT = 1.1127756842787055

/** Evenly spread ways: which loss and how fast, which fall and how fast, how far off capacity and level are today. */
const WAYS = Array.from({ length: HOW_MANY }, (_, i) => {
  const part = [1, 2, 3, 4, 5, 6].map((k) => (0.5 + (i + 1) * (ROOT ** -k % 1)) % 1)
  const [lossPart = 0, lossRate = 0, fallPart = 0, fallRate = 0, capacity = 0, level = 0] = part
  return {
    lossPart,
    lossSlice: sliceAt(lossRate),
    fallPart,
    fallSlice: sliceAt(fallRate),
    capacitySlice: sliceAt(capacity),
    levelSlice: sliceAt(level),
  }
})

function sliceAt(part: number): number {
  return SLICES[Math.floor(part * SLICES.length)] ?? 0
}

/** A course by its share of `chance` (null for the rest), with a rate so many spreads off its middle. */
function drawFrom(
  courses: readonly Course[],
  chance: number,
  lowest: number,
): (part: number, slice: number) => Loss | null {
  const total = logOddsOf(courses)
  let sum = 0
  const until = courses.map((course) => {
    sum += chance * Math.exp(course.logWeight - total)
    return sum
  })
  return (part, slice) => {
    const at = until.findIndex((end) => part < end)
    const course = courses[at]
    if (!course) return null
    return { ...course, rate: Math.max(lowest, course.rate + slice * DOUBT * course.rateSd) }
  }
}

/** The capacity before the loss, at the usual level, that agrees best with the readings given how the loss goes. */
function freshLogCapacity(loss: Loss | null, { years, adjusted, weights }: CapacityFit): number {
  let sum = 0
  let weight = 0
  for (let i = 0; i < years.length; i++) {
    const w = weights[i] ?? 0
    const lost = loss ? logLeft(loss, (years[i] ?? 0) - loss.onsetYears) : 0
    sum += w * ((adjusted[i] ?? 0) - lost)
    weight += w
  }
  return sum / weight
}

/** The first time at which something that stays true once it is true becomes so; infinity where not by `end`. */
function firstTime(isSo: (years: number) => boolean, end: number): number {
  if (!isSo(end)) return Number.POSITIVE_INFINITY
  let low = 0
  let high = end
  if (isSo(low)) return low
  for (let step = 0; step < 14; step++) {
    const middle = (low + high) / 2
    if (isSo(middle)) high = middle
    else low = middle
  }
  return high
}
