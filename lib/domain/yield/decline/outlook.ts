import { addDays, type Day, FIRST_DAY, isDay, LAST_DAY } from '@/lib/domain/quantity/day'
import { type Course, logOddsOf } from './effect'
import { CAPACITY } from './priors'
import type { DateOutlook } from './types'

const DAYS_PER_YEAR = 365.2425
/** Middles of eleven equal slices of the standard normal. */
export const SLICES = [-1.691, -1.097, -0.748, -0.473, -0.23, 0, 0.23, 0.473, 0.748, 1.097, 1.691]
/** Further off than this a date is only "later". */
export const HORIZON_YEARS = 60
const TAIL = 0.1
/**
 * No well follows one rate and shape to the end: the doubt of a rate is widened by this. Set on invented fleets
 * (tests/sim), where the 80 % interval without it was too narrow.
 */
export const DOUBT = 1.18

export type Moment = { years: number; share: number }

/** The courses cut into slices of equal chance: a rate for each. */
function slicesOf(
  courses: readonly Course[],
): (Pick<Course, 'onsetYears' | 'shape' | 'rate'> & { share: number })[] {
  const total = logOddsOf(courses)
  return courses.flatMap((course) => {
    const share = Math.exp(course.logWeight - total) / SLICES.length
    if (share < 5e-5) return []
    return SLICES.map((slice) => ({
      onsetYears: course.onsetYears,
      shape: course.shape,
      rate: Math.max(CAPACITY.loss.low / 2, course.rate + slice * DOUBT * course.rateSd),
      share,
    }))
  })
}

/** When capacity reaches the part `left` of its baseline, over all courses by weight; in years from the origin. */
export function momentsAtPart(courses: readonly Course[], left: number): Moment[] {
  return slicesOf(courses).map((slice) => ({
    years: slice.onsetYears + yearsTo(slice.shape, slice.rate, left),
    share: slice.share,
  }))
}

function yearsTo(shape: Course['shape'], rate: number, left: number): number {
  return shape === 'linear' ? (1 - left) / rate : -Math.log(left) / rate
}

/** The middle and the ends of the 80 % interval; an end beyond the horizon is open (null). */
export function dateOutlook(moments: readonly Moment[], origin: Day): DateOutlook | null {
  const sorted = [...moments].sort((a, b) => a.years - b.years)
  const total = sorted.reduce((sum, moment) => sum + moment.share, 0)
  if (total <= 0) return null
  const quantile = (part: number): number => {
    let sum = 0
    for (const moment of sorted) {
      sum += moment.share
      if (sum >= part * total) return moment.years
    }
    return sorted[sorted.length - 1]?.years ?? Number.POSITIVE_INFINITY
  }
  return {
    on: dayAt(quantile(0.5), origin),
    low: dayAt(quantile(TAIL), origin),
    high: dayAt(quantile(1 - TAIL), origin),
  }
}

/** A day so many years after the origin; null beyond the horizon. */
function dayAt(years: number, origin: Day): Day | null {
  if (!Number.isFinite(years) || Math.abs(years) > HORIZON_YEARS || !isDay(origin)) return null
  const day = addDays(origin, Math.round(years * DAYS_PER_YEAR))
  return day >= FIRST_DAY && day <= LAST_DAY ? day : null
}
