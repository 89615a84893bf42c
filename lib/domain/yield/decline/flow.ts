import { type Background, background, independent, type Term } from './background'
import {
  type Candidate,
  type Course,
  candidatesFor,
  logOddsOf,
  meanLogLeft,
  type Onset,
  onsetsOver,
  weighCourses,
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
  series: { model: Background; candidates: Candidate[] } | null
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
  const candidates = candidatesFor(years, onsets)
  const { model, courses, noiseSd } = robustly(series, terms, years, candidates)
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
  return { fresh: level, surprise, read, logOdds, courses, onsets, noiseSd, series: { model, candidates } }
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

/** Three rounds of reweighting: the noise is sized from what is left, and far readings count little. */
function robustly(
  series: Vector,
  terms: readonly Term[],
  years: Vector,
  candidates: readonly Candidate[],
): { model: Background; courses: Course[]; noiseSd: number } {
  const noise = { weight: FLOW.noiseWeight }
  let noiseSd = FLOW.readingSd
  let sd: Vector = vectorOf(series.length, () => FLOW.readingSd)
  let model = background(series, terms, independent(sd))
  let courses = weighCourses(model, candidates, FLOW.wear, noise, 'exponential')
  for (let round = 0; round < 2; round++) {
    const chance = 1 / (1 + Math.exp(-logOddsOf(courses)) / FLOW.oddsBeforehand)
    const wear = meanLogLeft(courses, years).map((loss) => chance * loss)
    const sizes = model.termsLess(wear).sizes
    const off = series.map((value, i) =>
      terms.reduce((left, term, k) => left - (sizes[k] ?? 0) * (term.values[i] ?? 0), value - (wear[i] ?? 0)),
    )
    const weighed = reweigh(
      off,
      sd.map(() => 1),
      noiseSd,
      FLOW.readingSd,
      FLOW.noiseWeight,
      terms.length,
    )
    noiseSd = weighed.noiseSd
    sd = weighed.sd
    model = background(series, terms, independent(sd))
    courses = weighCourses(model, candidates, FLOW.wear, noise, 'exponential')
  }
  return { model, courses, noiseSd }
}

/** Freedom of the heavy tail: a reading off by many spreads counts as one off by about two. */
const TAIL = 5

/** New noise and new spreads from what is left over; `relative` says how much noisier than usual each reading is. */
export function reweigh(
  off: Vector,
  relative: Vector,
  noiseSd: number,
  usualSd: number,
  usualWeight: number,
  spent: number,
): { noiseSd: number; sd: Vector } {
  const trust = off.map((value, i) => {
    const z = value / (noiseSd * (relative[i] ?? 1))
    return (TAIL + 1) / (TAIL + z * z)
  })
  let sum = usualWeight * usualSd * usualSd
  let count = usualWeight
  off.forEach((value, i) => {
    sum += (trust[i] ?? 1) * (value / (relative[i] ?? 1)) ** 2
    count += 1
  })
  const next = Math.sqrt(sum / Math.max(usualWeight, count - 0.7 * spent))
  return {
    noiseSd: next,
    sd: trust.map((part, i) => (next * (relative[i] ?? 1)) / Math.sqrt(Math.min(1.2, part))),
  }
}
