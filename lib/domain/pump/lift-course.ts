import { addDays, type Day, dayOfYear, daysBetween, monthOf } from '@/lib/domain/quantity/day'
import { normalUpper } from '@/lib/domain/stats'
import type { Forecast } from './forecast'
import { robustBelief } from './robust-belief'
import type { LiftMonth } from './suction-year'
import { thresholdDays } from './threshold-day'

export type LiftQuestion = {
  /** Levels at rest, m below the measuring point. */
  levels: readonly { on: Day; levelM: number }[]
  /** Twelve months, January first, each with the deepest level from which the pump still lifts. */
  months: readonly LiftMonth[]
  /** Suction head that is to be left, m. */
  marginM: number
}

const FEWEST = 4
const MONTHS_MIN = 3
const YEAR_DAYS = 365.25
const STEP_DAYS = 15
/** Before the record speaks, m: the usual level is anywhere, it falls or rises slowly, and seasons swing it. */
const BEFOREHAND = [
  { mean: 0, deviation: 30 },
  { mean: 0, deviation: 0.15 },
  { mean: 0, deviation: 0.6 },
  { mean: 0, deviation: 0.6 },
]
/** What weather does to a level beside its season, m, as if so many readings had shown it. */
const WEATHER = { scatter: 0.25, readings: 4 }
const SURE_ENOUGH = 0.9

/**
 * The day on which the table has fallen so far that no more than a margin of suction lift is left, with an 80 % interval.
 *
 * Model   level at rest = usual level + season + an even fall, with the weather about it; held against the deepest level
 *         from which the pump lifts in each month.
 * Answer  'cannot-say' with fewer than four levels or of fewer than three months, and where the margin holds for fifteen
 *         years to come. A fall that the readings do not show is not carried on.
 */
export function forecastLift({ levels, months, marginM }: LiftQuestion): Forecast {
  const sorted = [...levels].sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0))
  const [first, last] = [sorted[0], sorted.at(-1)]
  const seen = new Set(sorted.map(({ on }) => monthOf(on))).size
  if (!first || !last || sorted.length < FEWEST || seen < MONTHS_MIN) {
    return {
      kind: 'cannot-say',
      why: `${sorted.length} levels at rest of ${seen} months, ${FEWEST} of ${MONTHS_MIN} months needed`,
    }
  }
  const years = (on: Day) => daysBetween(first.on, on) / YEAR_DAYS
  const row = (on: Day, falling: number) => {
    const season = (2 * Math.PI * dayOfYear(on)) / YEAR_DAYS
    return [1, falling, Math.cos(season), Math.sin(season)]
  }
  const belief = robustBelief(
    sorted.map(({ on }) => row(on, years(on))),
    sorted.map(({ levelM }) => levelM),
    BEFOREHAND,
    WEATHER,
  )
  const falls = 1 - belief.chanceBelowZero(1) >= SURE_ENOUGH
  const chanceOn = (days: number) => {
    const on = addDays(last.on, days)
    const { mean, deviation } = belief.at(row(on, falls ? years(on) : years(last.on)))
    const deepest = (months[monthOf(on) - 1]?.deepestStaticM ?? Number.NaN) - marginM
    return normalUpper((deepest - mean) / Math.hypot(deviation, belief.scatter))
  }
  const days = thresholdDays(last.on, chanceOn, STEP_DAYS)
  if (!days)
    return { kind: 'cannot-say', why: 'by the levels read, the lift holds for as long as is looked ahead' }
  const course = falls
    ? `the level at rest falls by about ${(belief.coefficients[1] ?? 0).toFixed(2)} m a year`
    : 'the level at rest shows no fall beyond season and weather'
  return {
    kind: 'date',
    ...days,
    why: `from ${sorted.length} levels at rest, their season and the suction head that the pump asks for: ${course}`,
    warnings: [],
  }
}
