import type { Background } from './background'
import { logSumExp, normalBelow, type Vector, vectorOf } from './vector'

/** What is known beforehand of how fast something goes: normal, cut off at both ends. Per year. */
export type RatePrior = { mean: number; sd: number; low: number; high: number }

/** Noise known beforehand: as if `weight` readings had already shown noise of the expected size. */
export type NoisePrior = { weight: number }

/** One way a change may have gone: from when, in which shape, and how fast (normal, with this spread). */
export type Course = {
  onsetYears: number
  shape: 'exponential' | 'linear'
  rate: number
  rateSd: number
  /** Log of how much better it explains the readings than no change, times its share beforehand. */
  logWeight: number
}

export type Onset = { years: number; share: number }

/** Years since the onset, zero before it: the curve of a change at an even rate. */
export function since(years: Vector, onsetYears: number): Vector {
  return vectorOf(years.length, (i) => Math.max(0, (years[i] ?? 0) - onsetYears))
}

/** Weighs one linear effect of unknown size (normal prior, cut off) against none. */
export function weighEffect(
  found: { size: number; pull: number; rest: number },
  restWithout: number,
  n: number,
  prior: RatePrior,
  noise: NoisePrior,
): { logOdds: number; mean: number; sd: number } {
  const priorPrecision = prior.sd ** -2
  const precision = found.size + priorPrecision
  const mean = (found.pull + prior.mean * priorPrecision) / precision
  const gain = mean * mean * precision - prior.mean * prior.mean * priorPrecision
  const freedom = n + noise.weight
  const left = Math.max(1e-9, noise.weight + found.rest - gain)
  const sd = Math.sqrt(left / freedom / precision)
  const kept = between(mean, sd, prior.low, prior.high) / between(prior.mean, prior.sd, prior.low, prior.high)
  const logOdds =
    -0.5 * Math.log(precision / priorPrecision) +
    (freedom / 2) * Math.log((noise.weight + restWithout) / left) +
    Math.log(Math.max(1e-12, kept))
  return { logOdds, mean, sd }
}

function between(mean: number, sd: number, low: number, high: number): number {
  return normalBelow((high - mean) / sd) - normalBelow((low - mean) / sd)
}

/** The years since each onset at each reading: worked out once, asked many times. */
export type Candidate = Onset & { elapsed: Vector; longest: number }

export function candidatesFor(years: Vector, onsets: readonly Onset[]): Candidate[] {
  const last = years[years.length - 1] ?? 0
  return onsets.map((onset) => ({
    ...onset,
    elapsed: since(years, onset.years),
    longest: Math.max(0, last - onset.years),
  }))
}

/** All courses of loss that start at one of the onsets, exponential and, where asked, linear. */
export function weighCourses(
  series: Background,
  candidates: readonly Candidate[],
  prior: RatePrior,
  noise: NoisePrior,
  shapes: 'exponential' | 'both',
): Course[] {
  const courses: Course[] = []
  const share = shapes === 'both' ? 0.5 : 1
  for (const candidate of candidates) {
    const { size, pull } = series.measure(candidate.elapsed)
    const even = weighEffect({ size, pull: -pull, rest: series.rest }, series.rest, series.n, prior, noise)
    const logShare = Math.log(candidate.share * share)
    courses.push(courseOf(candidate, 'exponential', even, logShare))
    if (shapes === 'both') {
      const line = weighLinear(series, candidate, even.mean, prior, noise)
      courses.push(courseOf(candidate, 'linear', line, logShare))
    }
  }
  return courses
}

type Weighed = { logOdds: number; mean: number; sd: number }

function courseOf(onset: Onset, shape: Course['shape'], weighed: Weighed, logShare: number): Course {
  return {
    onsetYears: onset.years,
    shape,
    rate: weighed.mean,
    rateSd: weighed.sd,
    logWeight: weighed.logOdds + logShare,
  }
}

/** The least that a straight loss leaves over, so that its logarithm exists. */
const LEAST_LEFT = 0.05

/** log(1 - rate × elapsed) is bent in the rate: two Newton steps, then normal around the best rate. */
function weighLinear(
  series: Background,
  candidate: Candidate,
  startRate: number,
  prior: RatePrior,
  noise: NoisePrior,
): Weighed {
  const { elapsed, longest } = candidate
  const cap = Math.min(prior.high, longest > 0 ? (1 - LEAST_LEFT) / longest : prior.high)
  const inside = (rate: number) => Math.min(cap, Math.max(prior.low, rate))
  const slope = new Float64Array(elapsed.length)
  const known = new Float64Array(elapsed.length)
  let rate = inside(startRate / (1 + (startRate * longest) / 3))
  let best = { logOdds: Number.NEGATIVE_INFINITY, mean: rate, sd: prior.sd }
  for (let step = 0; step < 3; step++) {
    const at = rate
    for (let i = 0; i < elapsed.length; i++) {
      const u = elapsed[i] ?? 0
      const left = Math.max(LEAST_LEFT, 1 - at * u)
      slope[i] = -u / left
      known[i] = u === 0 ? 0 : Math.log(left) + (at * u) / left
    }
    best = weighEffect(series.measureLess(slope, known), series.rest, series.n, prior, noise)
    rate = inside(best.mean)
    if (Math.abs(rate - at) < 0.25 * best.sd) break
  }
  return { ...best, mean: rate }
}

/** Log of the part of capacity left on a course, at `elapsed` years after its onset. */
export function logLeft(course: Pick<Course, 'shape' | 'rate'>, elapsed: number): number {
  if (elapsed <= 0) return 0
  return course.shape === 'exponential'
    ? -course.rate * elapsed
    : Math.log(Math.max(LEAST_LEFT, 1 - course.rate * elapsed))
}

/** Log odds of any of the courses against none. */
export function logOddsOf(courses: readonly Course[]): number {
  return logSumExp(courses.map((course) => course.logWeight))
}

/** The mean log loss at each time, over all courses by weight (given that one of them is true). */
export function meanLogLeft(courses: readonly Course[], years: Vector): Vector {
  const total = logOddsOf(courses)
  const out = new Float64Array(years.length)
  for (const course of courses) {
    const share = Math.exp(course.logWeight - total)
    if (share < 1e-4) continue
    for (let i = 0; i < out.length; i++) {
      out[i] = (out[i] ?? 0) + share * logLeft(course, (years[i] ?? 0) - course.onsetYears)
    }
  }
  return out
}

/** Onsets spread evenly over a span, with a share for "from the very start". */
export function onsetsOver(fromYears: number, toYears: number, count: number, atStart: number): Onset[] {
  const out: Onset[] = [{ years: fromYears, share: atStart }]
  for (let i = 0; i < count; i++) {
    out.push({
      years: fromYears + ((i + 0.5) / count) * (toYears - fromYears),
      share: (1 - atStart) / count,
    })
  }
  return out
}
