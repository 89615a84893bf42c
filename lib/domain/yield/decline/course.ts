import { type Day, yearsSince } from '@/lib/domain/quantity/day'
import { lowess, medianAbsoluteDeviation } from '@/lib/domain/stats'
import type { CapacityPoint } from './types'

const NORMAL_80 = 1.2816
/** From the standard deviation of a mean to that of a median, for normal values. */
const MEDIAN_OVER_MEAN = 1.2533
const SPAN = 2 / 3
/** Part of the readings in a local line that its tricube weights leave to count in full. */
const EFFECTIVE = 0.5
/** A local line at the end of a series leans on one side only: its standard deviation is about twice that inside. */
const AT_ENDS = 2
const FEWEST = 5

/**
 * The course of capacity in the present stretch as a band in which it lies about 8 times in 10, for a chart. It
 * ends with the last reading and foretells nothing; what is said of a trend rests on the reckoning, not on it.
 *
 * Shape   `points` in time order; those before `since` and those without an adjusted value are left aside.
 * Answer  days with low and high, m²/s; empty with fewer than five points.
 * Source  smooth: Cleveland 1979. Its width from the spread about it, the weights of the local line and the lean at
 *         the ends: common practice, no published source; about right, not exact.
 */
export function courseBand(
  points: readonly CapacityPoint[],
  since: Day,
): { on: Day; low: number; high: number }[] {
  const used = points.flatMap(({ on, adjustedM2PerS: value }) =>
    value !== null && value > 0 && on >= since
      ? [{ on, years: yearsSince(on, since), log: Math.log(value) }]
      : [],
  )
  if (used.length < FEWEST) return []
  const smooth = lowess(
    used.map(({ years }) => years),
    used.map(({ log }) => log),
    { span: SPAN },
  )
  if (smooth.kind === 'too-few') return []
  const levels = smooth.fitted
  const spread = medianAbsoluteDeviation(used.map(({ log }, i) => log - (levels[i] ?? log)))
  const reach = (NORMAL_80 * MEDIAN_OVER_MEAN * spread) / Math.sqrt(EFFECTIVE * SPAN * used.length)
  return used.map(({ on, log }, i) => {
    const fromMiddle = Math.abs((2 * i) / (used.length - 1) - 1)
    const wide = reach * (1 + (AT_ENDS - 1) * fromMiddle)
    const level = levels[i] ?? log
    return { on, low: Math.exp(level - wide), high: Math.exp(level + wide) }
  })
}
