import type { Background } from './background'
import { logSumExp, normalBelow, type Vector } from './vector'

/** What is known beforehand of how fast something goes: normal, cut off at both ends. Per year. */
export type RatePrior = { mean: number; sd: number; low: number; high: number }

/** Noise known beforehand: as if `weight` readings had left `rest`, squared and summed in units of the noise now. */
export type NoisePrior = { weight: number; rest: number }

/** One way a change may have gone: from when, in which shape, and how fast (normal, with this spread). */
export type Course = {
  onsetYears: number
  shape: 'exponential' | 'linear'
  rate: number
  rateSd: number
  /** Log of how much better it explains the readings than no change, times its share beforehand. */
  logWeight: number
}

/** A span of days on which a change may have begun: its middle, its width, its share beforehand. */
export type Onset = { years: number; widthYears: number; share: number }

/** Years since the onset, zero before it: the curve of a change at an even rate. */
export function since(years: Vector, onsetYears: number): Vector {
  const out = new Float64Array(years.length)
  for (let i = 0; i < out.length; i++) out[i] = Math.max(0, (years[i] ?? 0) - onsetYears)
  return out
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
  const freedom = n - 1 + noise.weight
  const left = Math.max(1e-9, noise.rest + found.rest - gain)
  const sd = Math.sqrt(left / freedom / precision)
  const kept = between(mean, sd, prior.low, prior.high) / between(prior.mean, prior.sd, prior.low, prior.high)
  const logOdds =
    -0.5 * Math.log(precision / priorPrecision) +
    (freedom / 2) * Math.log((noise.rest + restWithout) / left) +
    Math.log(Math.max(1e-12, kept))
  return { logOdds, mean, sd }
}

function between(mean: number, sd: number, low: number, high: number): number {
  return normalBelow((high - mean) / sd) - normalBelow((low - mean) / sd)
}

/**
 * Weighs a change at each onset, and again more finely where it is likely: a well read to two percent tells its onset
 * to weeks, a grid of half years would miss it.
 */
export function weighFinely<T extends { logWeight: number }>(
  onsets: readonly Onset[],
  weigh: (onset: Onset) => T[],
): T[] {
  let cells = onsets.map((onset) => ({ onset, found: weigh(onset) }))
  for (let round = 0; round < REFINEMENTS; round++) {
    const total = logSumExp(cells.flatMap(({ found }) => found.map((one) => one.logWeight)))
    cells = cells.flatMap((cell) => {
      const part = Math.exp(logSumExp(cell.found.map((one) => one.logWeight)) - total)
      if (part < WORTH_SPLITTING || cell.onset.widthYears < NARROW_YEARS) return [cell]
      return thirdsOf(cell.onset).map((onset) => ({ onset, found: weigh(onset) }))
    })
  }
  return cells.flatMap(({ found }) => found)
}

const REFINEMENTS = 2
const WORTH_SPLITTING = 0.04
const NARROW_YEARS = 0.1

function thirdsOf({ years, widthYears, share }: Onset): Onset[] {
  const third = widthYears / 3
  return [-third, 0, third].map((shift) => ({ years: years + shift, widthYears: third, share: share / 3 }))
}

/** The courses of loss that start at an onset: exponential and, where asked, linear. */
export function weighLoss(
  series: Background,
  years: Vector,
  onset: Onset,
  prior: RatePrior,
  noise: NoisePrior,
  shapes: 'exponential' | 'both',
): Course[] {
  const elapsed = since(years, onset.years)
  const logShare = Math.log(onset.share * (shapes === 'both' ? 0.5 : 1))
  const { size, pull } = series.measure(elapsed)
  const even = weighEffect({ size, pull: -pull, rest: series.rest }, series.rest, series.n, prior, noise)
  const exponential = courseOf(onset, 'exponential', even, logShare)
  if (shapes === 'exponential') return [exponential]
  const longest = Math.max(0, (years[years.length - 1] ?? 0) - onset.years)
  const line = weighLinear(series, { elapsed, longest }, even.mean, prior, noise)
  return [exponential, courseOf(onset, 'linear', line, logShare)]
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
  candidate: { elapsed: Vector; longest: number },
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
  const widthYears = (toYears - fromYears) / count
  const out: Onset[] = [{ years: fromYears, widthYears: 0, share: atStart }]
  for (let i = 0; i < count; i++) {
    out.push({ years: fromYears + (i + 0.5) * widthYears, widthYears, share: (1 - atStart) / count })
  }
  return out
}
