import { type Background, background, type Term, withMemory } from './background'
import { type Course, logOddsOf, type Onset, onsetsOver, since, weighEffect } from './effect'
import type { Reading } from './mend'
import { TABLE } from './priors'
import { lowestOf, seasonOf, seasonTerms } from './season'
import { logSumExp, medianOf, type Vector, vectorOf } from './vector'

export type WaterTable = {
  /** Log odds that the table falls, beside one that only swings and wanders. */
  logOdds: number
  /** Expected fall in m a year where it falls, and how sure. */
  fallMPerYear: number
  fallSdMPerYear: number
  /** Mean fall over the record with season out, in m (over all courses and none). */
  fallM: number
  /** The middle static level of the record, m; null without any reading. */
  usualM: number | null
  /** The ways it may fall: rates in m a year. */
  courses: Course[]
  /** The level at the low of a usual season before any fall, m, given how it fell since; and how sure. */
  lowGiven: (fall: Pick<Course, 'onsetYears' | 'rate'> | null) => number
  lowSdM: number
  /** Static level at each visit: read, or filled in with its uncertainty; null where nothing is known. */
  levels: ({ staticM: number; sdM: number } | null)[]
}

type Fit = { memory: number; model: Background; logFit: number; courses: Course[] }
/** The likeliest fit spelled out: constant and season, the level at each reading, and the low of a usual season. */
type Spelled = {
  memory: number
  courses: Course[]
  sizes: number[]
  mean: Vector
  lowGiven: WaterTable['lowGiven']
  lowSdM: number
}

/**
 * The static level over the years: season, weather with a memory, and perhaps a fall that began at some time.
 *
 * Shape   `readings` in time order, `years` their times. Levels in m below the measuring point.
 * Answer  log odds of a fall (0 without enough readings), and a level for every visit with its spread.
 */
export function appraiseTable(readings: readonly Reading[], years: Vector): WaterTable {
  const at: number[] = []
  readings.forEach((reading, i) => {
    if (reading.staticM !== null) at.push(i)
  })
  const levelsM = at.map((i) => readings[i]?.staticM ?? 0)
  const usualM = medianOf(levelsM)
  if (usualM === null) {
    const levels = readings.map(() => null)
    return {
      logOdds: 0,
      fallMPerYear: 0,
      fallSdMPerYear: 0,
      fallM: 0,
      usualM,
      courses: [],
      lowGiven: () => 0,
      lowSdM: 0,
      levels,
    }
  }
  const t = vectorOf(at.length, (k) => years[at[k] ?? 0] ?? 0)
  const series = vectorOf(at.length, (k) => (levelsM[k] ?? 0) - usualM)
  const terms = seasonTerms(t)
  const curves = onsetsOver(t[0] ?? 0, t[t.length - 1] ?? 0, TABLE.onsets, TABLE.fromStart).map((onset) => ({
    onset,
    elapsed: since(t, onset.years),
  }))
  const fits = TABLE.memoriesYears.map((memory) => fitTable(series, t, terms, curves, memory))
  const total = logSumExp(fits.map((fit) => fit.logFit))
  const totalFalling = logSumExp(fits.map((fit) => fit.logFit + logOddsOf(fit.courses)))
  const best = spellOut(
    fits.reduce((a, b) => (b.logFit > a.logFit ? b : a)),
    terms,
    t,
  )
  const span = (t[t.length - 1] ?? 0) - (t[0] ?? 0)
  const logOdds = at.length >= 4 && span > 0.5 ? totalFalling - total : 0
  const falling = rateOf(best.courses)
  const chance = 1 / (1 + Math.exp(-logOdds) / TABLE.oddsBeforehand)
  return {
    logOdds,
    fallMPerYear: falling.mean,
    fallSdMPerYear: falling.sd,
    fallM: chance * falling.fallen(t[t.length - 1] ?? 0),
    usualM,
    courses: best.courses,
    lowGiven: (fall) => usualM + best.lowGiven(fall),
    lowSdM: best.lowSdM,
    levels: fillLevels(readings, years, t, series, best, usualM),
  }
}

const NOISE = { weight: TABLE.noiseWeight, rest: TABLE.noiseWeight }

function fitTable(
  series: Vector,
  t: Vector,
  terms: readonly Term[],
  curves: readonly { onset: Onset; elapsed: Vector }[],
  memory: number,
): Fit {
  const model = background(series, terms, withMemory(t, TABLE.weatherSdM, memory, TABLE.freshSdM))
  const freedom = series.length - 1 + NOISE.weight
  const courses = curves.map(({ onset, elapsed }) => {
    const { size, pull } = model.measure(elapsed)
    const weighed = weighEffect({ size, pull, rest: model.rest }, model.rest, model.n, TABLE.fall, NOISE)
    return {
      onsetYears: onset.years,
      shape: 'exponential' as const,
      rate: weighed.mean,
      rateSd: weighed.sd,
      logWeight: weighed.logOdds + Math.log(onset.share),
    }
  })
  const logFit = model.logFit - (freedom / 2) * Math.log(NOISE.weight + model.rest)
  return { memory, model, logFit, courses }
}

function spellOut({ memory, model, courses }: Fit, terms: readonly Term[], t: Vector): Spelled {
  const mean = meanFall(courses, t)
  const { sizes, variances } = model.termsLess(mean)
  terms.forEach((term, k) => {
    const size = sizes[k] ?? 0
    for (let i = 0; i < mean.length; i++) mean[i] = (mean[i] ?? 0) + size * (term.values[i] ?? 0)
  })
  const scale = Math.max(1, (NOISE.weight + model.rest) / (NOISE.weight + t.length))
  const [flat = 0, one = 0, other = 0] = variances
  return {
    memory,
    courses,
    sizes,
    mean,
    lowGiven: lowsOf(model, t),
    lowSdM: Math.sqrt(scale * (flat + (one + other) / 2)),
  }
}

/** The sizes go straight with the fall that is taken off, so each onset is fitted once. */
function lowsOf(model: Background, t: Vector): WaterTable['lowGiven'] {
  const without = model.termsLess(new Float64Array(t.length)).sizes
  const perRate = new Map<number, number[]>()
  return (fall) => {
    if (!fall) return lowestOf(without)
    let change = perRate.get(fall.onsetYears)
    if (!change) {
      const { sizes } = model.termsLess(since(t, fall.onsetYears))
      change = sizes.map((size, k) => size - (without[k] ?? 0))
      perRate.set(fall.onsetYears, change)
    }
    const { rate } = fall
    return lowestOf(without.map((size, k) => size + rate * (change[k] ?? 0)))
  }
}

/** The fall at each time, averaged over all courses and over no fall at all. */
function meanFall(courses: readonly Course[], t: Vector): Vector {
  const odds = logSumExp([logOddsOf(courses), -Math.log(TABLE.oddsBeforehand)])
  const fall = new Float64Array(t.length)
  for (const { logWeight, rate, onsetYears } of courses) {
    const share = Math.exp(logWeight - odds)
    if (share < 1e-3) continue
    for (let i = 0; i < fall.length; i++) {
      fall[i] = (fall[i] ?? 0) + share * rate * Math.max(0, (t[i] ?? 0) - onsetYears)
    }
  }
  return fall
}

function rateOf(courses: readonly Course[]): { mean: number; sd: number; fallen: (t: number) => number } {
  const total = logOddsOf(courses)
  const shares = courses.map((course) => Math.exp(course.logWeight - total))
  const mean = courses.reduce((sum, course, i) => sum + (shares[i] ?? 0) * course.rate, 0)
  const square = courses.reduce(
    (sum, course, i) => sum + (shares[i] ?? 0) * (course.rateSd ** 2 + (course.rate - mean) ** 2),
    0,
  )
  const fallen = (t: number) =>
    courses.reduce((sum, c, i) => sum + (shares[i] ?? 0) * c.rate * Math.max(0, t - c.onsetYears), 0)
  return { mean, sd: Math.sqrt(square), fallen }
}

/** Levels as read, and for visits without one: season plus what the weather did before and after. */
function fillLevels(
  readings: readonly Reading[],
  years: Vector,
  t: Vector,
  series: Vector,
  fit: Spelled,
  usualM: number,
): WaterTable['levels'] {
  const away = series.map((value, i) => value - (fit.mean[i] ?? 0))
  const meanAt = (year: number) =>
    seasonOf(fit.sizes, year) + (meanFall(fit.courses, Float64Array.of(year))[0] ?? 0)
  let next = 0
  return readings.map((reading, i) => {
    if (reading.staticM !== null) {
      next++
      return { staticM: reading.staticM, sdM: TABLE.readingSdM }
    }
    const year = years[i] ?? 0
    const before = next > 0 ? Math.exp(-(year - (t[next - 1] ?? 0)) / fit.memory) : 0
    const after = next < t.length ? Math.exp(-((t[next] ?? 0) - year) / fit.memory) : 0
    const both = Math.max(1e-6, 1 - (before * after) ** 2)
    const weatherM =
      (before * (1 - after * after) * (away[next - 1] ?? 0) +
        after * (1 - before * before) * (away[next] ?? 0)) /
      both
    const open = ((1 - before * before) * (1 - after * after)) / both
    const sdM = Math.sqrt(TABLE.weatherSdM ** 2 * (open + 5 / (t.length + 5)) + TABLE.freshSdM ** 2)
    return { staticM: usualM + meanAt(year) + weatherM, sdM }
  })
}
