import { type Background, background, independent, type Term } from './background'
import {
  type Course,
  logOddsOf,
  meanLogLeft,
  type NoisePrior,
  type Onset,
  onsetsOver,
  since,
  weighEffect,
  weighFinely,
  weighLoss,
} from './effect'
import { type FlowLevel, leftOver, noiseFrom, reweigh } from './flow'
import { CAPACITY, FLOW } from './priors'
import { logSumExp, plus, type Vector, vectorOf } from './vector'

/** One visit's capacity as the drawdown shows it at the pump's usual flow; all in logarithms. */
export type CapacityRow = {
  /** Place among the visits. */
  visit: number
  years: number
  /** Log of expected flow over drawdown, or of a fitted capacity. */
  logCapacity: number
  /** How much noisier than a plain reading, 1 and over. */
  relativeSd: number
  /** Log saturated thickness against its usual. */
  logThickness: number
  /** Log of pumping time over an hour. */
  logDuration: number
  flowSurprise: number
  /** Where in the year: one wave, 0 where the test stands on its own. */
  seasonCos: number
  seasonSin: number
  fitted: boolean
  /** Change of log capacity for each metre that a filled-in static level is off; 0 where it was read. */
  filledIn: number
  /** Years since a static level was last read, where none was read since; else 0. */
  unseenYears: number
}

/** What an earlier stretch of the record taught: where the next stretch starts from. */
export type Learned = {
  thicknessPower: Known
  duration: Known
  flowReal: Known
  noiseSd: number
  noiseWeight: number
}
type Known = { mean: number; sd: number }

export const NOTHING_LEARNED: Learned = {
  thicknessPower: CAPACITY.thicknessPower,
  duration: CAPACITY.duration,
  flowReal: CAPACITY.flowReal,
  noiseSd: CAPACITY.noiseSd,
  noiseWeight: CAPACITY.noiseWeight,
}

export type CapacityFit = {
  /** Log odds against a well that holds its capacity and a pump that holds its flow. */
  logDecline: number
  logPump: number
  logBoth: number
  courses: Course[]
  /** Log loss the pump explains at each row, under the likeliest wear. */
  pumpLoss: Vector
  /** Share of "the pump wears" among everything. */
  base: number
  baseSd: number
  learned: Learned
  /** Log capacity at the usual level and an hour of pumping, at each row. */
  adjusted: Vector
  years: Vector
  /** How much each row counts: one over its squared noise. */
  weights: Vector
  noiseSd: number
  trend: { perYear: number; sd: number; freedom: number }
}

type Setup = { rows: readonly CapacityRow[]; years: Vector; series: Vector; relative: Vector; terms: Term[] }

/**
 * Weighs "the capacity falls" against "it holds" and "only the pump wears", for one stretch between rehabilitations.
 *
 * Shape   rows in time order (at least two), `flow` over all visits.
 * Answer  log odds of each story, the courses a decline may take, and the level at the start.
 */
export function fitCapacity(
  rows: readonly CapacityRow[],
  flow: FlowLevel,
  startYears: number,
  fromStart: number,
  learned: Learned,
): CapacityFit {
  const years = vectorOf(rows.length, (i) => rows[i]?.years ?? 0)
  const setup: Setup = {
    rows,
    years,
    series: vectorOf(rows.length, (i) => rows[i]?.logCapacity ?? 0),
    relative: vectorOf(rows.length, (i) => rows[i]?.relativeSd ?? 1),
    terms: termsOf(rows, learned),
  }
  const last = years[years.length - 1] ?? 0
  const onsets = onsetsOver(startYears, last, CAPACITY.onsets, fromStart)
  const { model, noiseSd, sd, noise } = robustly(setup, onsets, learned)
  const losses = (series: Background, shapes: 'exponential' | 'both') =>
    weighFinely(onsets, (onset) => weighLoss(series, years, onset, CAPACITY.loss, noise, shapes))
  const courses = losses(model, 'both')
  const pump = weighPump(model, flow, years, noise)
  const pumped = background(plus(setup.series, -1, pump.gain), setup.terms, independent(sd))
  const both = losses(pumped, 'exponential')
  const logDecline = logOddsOf(courses)
  const logBoth = pump.logOdds + logOddsOf(both) + Math.log(BOTH_AT_ONCE)
  const usePump =
    pump.logOdds + Math.log(FLOW.oddsBeforehand) > Math.max(0, logDecline + Math.log(CAPACITY.oddsBeforehand))
  return summarize(setup, usePump ? pumped : model, usePump ? both : courses, {
    logDecline,
    logPump: pump.logOdds,
    logBoth,
    pumpLoss: usePump ? pump.gain : new Float64Array(rows.length),
    noiseSd,
    noise,
    weights: sd.map((value) => 1 / (value * value)),
  })
}

/** A well and its pump seldom fail together. */
const BOTH_AT_ONCE = 0.3

function termsOf(rows: readonly CapacityRow[], learned: Learned): Term[] {
  const column = (value: (row: CapacityRow) => number) =>
    vectorOf(rows.length, (i) => {
      const row = rows[i]
      return row ? value(row) : 0
    })
  const terms: Term[] = [
    { values: column(() => 1), mean: rows[0]?.logCapacity ?? 0, sd: 3 },
    { values: column((row) => row.logThickness), ...learned.thicknessPower },
    { values: column((row) => (row.fitted ? 0 : row.logDuration)), ...learned.duration },
    { values: column((row) => -row.flowSurprise), ...learned.flowReal },
    { values: column((row) => row.seasonCos), mean: 0, sd: CAPACITY.seasonSd },
    { values: column((row) => row.seasonSin), mean: 0, sd: CAPACITY.seasonSd },
  ]
  const fitted = rows.filter((row) => row.fitted).length
  if (fitted > 0 && fitted < rows.length) {
    terms.push({ values: column((row) => (row.fitted ? 1 : 0)), mean: 0, sd: 0.3 })
  }
  if (rows.some((row) => row.filledIn !== 0)) {
    terms.push({ values: column((row) => row.filledIn), mean: 0, sd: CAPACITY.fillSdM })
  }
  if (rows.some((row) => row.unseenYears > 0)) {
    const unseen = (row: CapacityRow, years: number) => (row.unseenYears > 0 ? row.filledIn * years : 0)
    terms.push(
      { values: column((row) => unseen(row, 1)), mean: 0, sd: CAPACITY.unseenSdM },
      { values: column((row) => unseen(row, row.unseenYears)), mean: 0, sd: CAPACITY.unseenSdMPerYear },
    )
  }
  return terms
}

function robustly(
  setup: Setup,
  onsets: readonly Onset[],
  learned: Learned,
): { model: Background; noiseSd: number; sd: Vector; noise: NoisePrior } {
  const usual = { sd: learned.noiseSd, weight: learned.noiseWeight }
  const sparse = onsets.filter((_, i) => i % 2 === 0).map((onset) => ({ ...onset, share: onset.share * 2 }))
  let noiseSd = learned.noiseSd
  let sd: Vector = setup.relative.map((relative) => relative * noiseSd)
  let model = background(setup.series, setup.terms, independent(sd))
  for (let round = 0; round < 3; round++) {
    const noise = noiseFrom(usual, noiseSd)
    const courses = sparse.flatMap((onset) =>
      weighLoss(model, setup.years, onset, CAPACITY.loss, noise, 'exponential'),
    )
    const chance = chanceOf(logOddsOf(courses), 1)
    const loss = meanLogLeft(courses, setup.years).map((left) => chance * left)
    const off = leftOver(setup.series, setup.terms, model, loss)
    const weighed = reweigh(off, setup.relative, noiseSd, usual, 2 + chance)
    noiseSd = weighed.noiseSd
    sd = weighed.sd
    model = background(setup.series, setup.terms, independent(sd))
  }
  return { model, noiseSd, sd, noise: noiseFrom(usual, noiseSd) }
}

/** One wear must explain both the flow that falls and the drawdown that falls with it. */
function weighPump(
  model: Background,
  flow: FlowLevel,
  years: Vector,
  noise: NoisePrior,
): { logOdds: number; gain: Vector } {
  const { series } = flow
  if (!series) return { logOdds: Number.NEGATIVE_INFINITY, gain: new Float64Array(years.length) }
  const both = { weight: noise.weight + series.noise.weight, rest: noise.rest + series.noise.rest }
  const rest = series.model.rest + model.rest
  const n = series.model.n + model.n
  const wears = weighFinely(flow.onsets, (onset) => {
    const inFlow = series.model.measure(since(series.years, onset.years))
    const inDrawdown = model.measure(since(years, onset.years))
    const size = inFlow.size + inDrawdown.size
    const pull = inDrawdown.pull - inFlow.pull
    const weighed = weighEffect({ size, pull, rest }, rest, n, FLOW.wear, both)
    return [{ onset: onset.years, rate: weighed.mean, logWeight: weighed.logOdds + Math.log(onset.share) }]
  })
  const likeliest = wears.reduce((a, b) => (b.logWeight > a.logWeight ? b : a))
  return {
    logOdds: logSumExp(wears.map((wear) => wear.logWeight)),
    gain: since(years, likeliest.onset).map((u) => likeliest.rate * u),
  }
}

export function chanceOf(logOdds: number, beforehand: number): number {
  return 1 / (1 + Math.exp(-logOdds) / beforehand)
}

function summarize(
  setup: Setup,
  model: Background,
  courses: Course[],
  weighed: Pick<CapacityFit, 'logDecline' | 'logPump' | 'logBoth' | 'pumpLoss' | 'noiseSd' | 'weights'> & {
    noise: NoisePrior
  },
): CapacityFit {
  const { rows, years, terms } = setup
  const chance = chanceOf(logOddsOf(courses), CAPACITY.oddsBeforehand)
  const loss = meanLogLeft(courses, years).map((left) => chance * left)
  const { sizes, variances } = model.termsLess(loss)
  const known = (k: number): Known => ({ mean: sizes[k] ?? 0, sd: Math.sqrt(variances[k] ?? 1) })
  const adjusted = setup.series.map((value, i) =>
    terms.reduce(
      (left, term, k) => (k === 0 ? left : left - (sizes[k] ?? 0) * (term.values[i] ?? 0)),
      value - (weighed.pumpLoss[i] ?? 0),
    ),
  )
  const line = model.measure(years)
  return {
    ...weighed,
    courses,
    base: sizes[0] ?? 0,
    baseSd: Math.sqrt(variances[0] ?? 0),
    learned: {
      thicknessPower: known(1),
      duration: known(2),
      flowReal: known(3),
      noiseSd: weighed.noiseSd,
      noiseWeight: Math.min(40, weighed.noise.weight + 0.5 * rows.length),
    },
    adjusted,
    years,
    trend: lineOf(line, model.rest, rows.length, weighed.noise),
  }
}

/** The straight slope of log capacity, with nothing known of it beforehand. */
function lineOf(
  line: { size: number; pull: number },
  rest: number,
  n: number,
  noise: NoisePrior,
): CapacityFit['trend'] {
  const freedom = n + noise.weight - 2
  if (!(line.size > 0)) return { perYear: 0, sd: Number.POSITIVE_INFINITY, freedom }
  const perYear = line.pull / line.size
  const left = Math.max(1e-9, noise.rest + rest - (line.pull * line.pull) / line.size)
  return { perYear, sd: Math.sqrt(left / freedom / line.size), freedom }
}
