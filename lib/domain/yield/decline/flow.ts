import { type Background, background, independent, type Term } from './background'
import {
  type Course,
  logOddsOf,
  meanLogLeft,
  type NoisePrior,
  type Onset,
  onsetsOver,
  weighLoss,
} from './effect'
import { FLOW } from './priors'
import { medianOf, type Vector, vectorOf } from './vector'

/** What the pump gives: its level, its sag with lift, and whether it wears. Flow in log m³/s. */
export type FlowLevel = {
  /** Log flow expected at each visit with no wear (sag and pump replacements in), or null without any flow. */
  fresh: Vector | null
  /** How far each flow reading lies off the level with wear in; 0 where there is none. */
  surprise: Vector
  read: boolean[]
  /** Log odds of wear from the flow readings alone. */
  logOdds: number
  courses: Course[]
  onsets: Onset[]
  noiseSd: number
  series: { model: Background; years: Vector; noise: NoisePrior } | null
}

export type FlowReading = {
  years: number
  flowM3PerS: number | null
  pumpingM: number | null
  pumpEra: number
}

/**
 * Splits flow readings into a level (one for each pump), sag with lift, wear of the present pump, and noise.
 *
 * Shape   readings in time order; `pumpEra` counts pump replacements.
 */
export function appraiseFlow(readings: readonly FlowReading[]): FlowLevel {
  const at = readings.flatMap((reading, i) => (reading.flowM3PerS === null ? [] : [i]))
  const read = readings.map((reading) => reading.flowM3PerS !== null)
  if (at.length === 0) {
    const surprise = new Float64Array(readings.length)
    return {
      fresh: null,
      surprise,
      read,
      logOdds: 0,
      courses: [],
      onsets: [],
      noiseSd: FLOW.readingSd,
      series: null,
    }
  }
  const usualPumpingM = medianOf(readings.flatMap((r) => (r.pumpingM === null ? [] : [r.pumpingM]))) ?? 0
  const logFlow = readings.map((reading) => (reading.flowM3PerS === null ? 0 : Math.log(reading.flowM3PerS)))
  const middle = medianOf(at.map((i) => logFlow[i] ?? 0)) ?? 0
  const lastEra = readings[readings.length - 1]?.pumpEra ?? 0
  const termRows = flowTerms(readings, usualPumpingM, lastEra)
  const pick = (row: (i: number) => number) => vectorOf(at.length, (k) => row(at[k] ?? 0))
  const terms: Term[] = termRows.map((term) => ({ ...term, values: pick((i) => term.values[i] ?? 0) }))
  const series = pick((i) => (logFlow[i] ?? 0) - middle)
  const years = pick((i) => readings[i]?.years ?? 0)
  const eraStart = readings.find((reading) => reading.pumpEra === lastEra)?.years ?? 0
  const onsets = onsetsOver(eraStart, readings[readings.length - 1]?.years ?? 0, FLOW.onsets, FLOW.fromStart)
  const { model, courses, noiseSd, noise } = robustly(series, terms, years, onsets)
  const logOdds = at.length >= 3 ? logOddsOf(courses) : 0
  const chance = 1 / (1 + Math.exp(-logOdds) / FLOW.oddsBeforehand)
  const allYears = vectorOf(readings.length, (i) => readings[i]?.years ?? 0)
  const wear = meanLogLeft(courses, allYears).map((loss) => chance * loss)
  const sizesWorn = model.termsLess(pick((i) => wear[i] ?? 0)).sizes
  const level = vectorOf(readings.length, (i) =>
    termRows.reduce((sum, term, k) => sum + (sizesWorn[k] ?? 0) * (term.values[i] ?? 0), middle),
  )
  const surprise = vectorOf(readings.length, (i) =>
    read[i] ? (logFlow[i] ?? 0) - (level[i] ?? 0) - (wear[i] ?? 0) : 0,
  )
  return { fresh: level, surprise, read, logOdds, courses, onsets, noiseSd, series: { model, years, noise } }
}

function flowTerms(readings: readonly FlowReading[], usualPumpingM: number, lastEra: number): Term[] {
  const n = readings.length
  const terms: Term[] = [
    { values: vectorOf(n, () => 1), mean: 0, sd: 3 },
    { values: vectorOf(n, (i) => (readings[i]?.pumpingM ?? usualPumpingM) - usualPumpingM), ...FLOW.sagPerM },
  ]
  for (let era = 0; era < lastEra; era++) {
    const within = vectorOf(n, (i) => (readings[i]?.pumpEra === era ? 1 : 0))
    const start = readings.find((reading) => reading.pumpEra === era)?.years
    if (start === undefined) continue
    const slope = within.map((one, i) => one * ((readings[i]?.years ?? 0) - start))
    terms.push({ values: within, mean: 0, sd: 0.7 }, { values: slope, mean: 0, sd: 0.1 })
  }
  return terms
}

/** Rounds of reweighting: the noise is sized from what is left, and far readings count little. */
function robustly(
  series: Vector,
  terms: readonly Term[],
  years: Vector,
  onsets: readonly Onset[],
): { model: Background; courses: Course[]; noiseSd: number; noise: NoisePrior } {
  const usual = { sd: FLOW.readingSd, weight: FLOW.noiseWeight }
  const relative = series.map(() => 1)
  let noiseSd = FLOW.readingSd
  let model = background(series, terms, independent(vectorOf(series.length, () => FLOW.readingSd)))
  const weigh = () =>
    onsets.flatMap((onset) =>
      weighLoss(model, years, onset, FLOW.wear, noiseFrom(usual, noiseSd), 'exponential'),
    )
  let courses = weigh()
  for (let round = 0; round < 2; round++) {
    const chance = 1 / (1 + Math.exp(-logOddsOf(courses)) / FLOW.oddsBeforehand)
    const wear = meanLogLeft(courses, years).map((loss) => chance * loss)
    const weighed = reweigh(leftOver(series, terms, model, wear), relative, noiseSd, usual, 2)
    noiseSd = weighed.noiseSd
    model = background(series, terms, independent(weighed.sd))
    courses = weigh()
  }
  return { model, courses, noiseSd, noise: noiseFrom(usual, noiseSd) }
}

/** What is left of a series once its terms and a known curve are taken off. */
export function leftOver(series: Vector, terms: readonly Term[], model: Background, known: Vector): Vector {
  const { sizes } = model.termsLess(known)
  return series.map((value, i) =>
    terms.reduce((left, term, k) => left - (sizes[k] ?? 0) * (term.values[i] ?? 0), value - (known[i] ?? 0)),
  )
}

/** Noise expected beforehand, as if so many readings had shown it. */
export type UsualNoise = { sd: number; weight: number }

/** The same in units of the noise found. */
export function noiseFrom(usual: UsualNoise, noiseSd: number): NoisePrior {
  return { weight: usual.weight, rest: usual.weight * (usual.sd / noiseSd) ** 2 }
}

/** A reading off by more than this many spreads counts as if it were off by just as many. */
const FAR = 2
/** What capping at FAR leaves of the variance of normal noise. */
const KEPT = 0.92

/** New noise and new spreads from what is left over; `relative` says how much noisier than usual each reading is. */
export function reweigh(
  off: Vector,
  relative: Vector,
  noiseSd: number,
  usual: UsualNoise,
  spent: number,
): { noiseSd: number; sd: Vector } {
  let sum = usual.weight * usual.sd * usual.sd
  const far = off.map((value, i) => {
    const even = Math.abs(value / (relative[i] ?? 1))
    sum += Math.min(even, FAR * noiseSd) ** 2 / KEPT
    return even
  })
  const freedom = Math.max(usual.weight, usual.weight + off.length - spent)
  const next = Math.sqrt(sum / freedom)
  return {
    noiseSd: next,
    sd: far.map((even, i) => next * (relative[i] ?? 1) * Math.max(1, even / (FAR * next))),
  }
}
