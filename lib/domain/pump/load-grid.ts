import { SHAPES } from './blocking-laws'
import { emptyState, type Filtered, filter, type LoadColumns, type Place, placeOf } from './load-filter'
import { type Reached, reachedBy, type Solved } from './load-limit'
import { DRIFTS, type LoadPrior } from './load-prior'

/** Scatter of a reading about the law, as a share: a coarse grid with long tails makes the belief a mixture, as t is. */
type Scatters = readonly { scatter: number; shareLog: number }[]
export const SCATTERS: Scatters = [
  { scatter: 0.04, shareLog: Math.log(0.4) },
  { scatter: 0.08, shareLog: Math.log(0.45) },
  { scatter: 0.17, shareLog: Math.log(0.15) },
]
/** Enough to see where the belief lies. */
export const ROUGH_SCATTERS: Scatters = [
  { scatter: 0.06, shareLog: Math.log(0.6) },
  { scatter: 0.16, shareLog: Math.log(0.4) },
]

export type LoadData = {
  columns: LoadColumns
  /** Noise of each reading besides its scatter, and what multiplies the variance of single readings. */
  extra: Float64Array
  penalties: Float64Array
  prior: LoadPrior
  /** Logarithm of the terminal drop over the clean drop that the prior expects. */
  targetLog: number
  /** The same after what an event took away; and the doubt about the flow to which it holds. */
  leftLog: number
  flowDoubt: number
}

/** One law at one rate and drift, with flow power, scatter and clean drop integrated out. */
export type LoadCell = {
  shape: number
  drift: number
  gridLog: number
  end: number
  slack: number
  logWeight: number
  cleanLog: number
  cleanDeviation: number
  power: number
  /** Variance with which the readings leave the power open. */
  powerVariance: number
  scatter: number
  /** Use at the terminal drop: its logarithm's middle and deviation. */
  limitLog: number
  limitDeviation: number
}

/** Rates of one law: logarithms of the use at its end at the prior's clean drop, with equal steps. */
export type Rates = { shape: number; from: number; step: number; count: number }

/** Rates between two of the grid are left open by this share of the step, so that the grid does not show. */
const SLACK = 0.45

/** Every rate of a law with every drift asked for. */
export function loadCells(
  data: LoadData,
  rates: Rates,
  drifts: readonly number[],
  scatters: Scatters,
): LoadCell[] {
  const share = data.prior.shapes[rates.shape] ?? 0
  if (!(share > 0)) return []
  // A cartridge that is at its end when new still grows: no law reaches less than its beginning.
  const end = SHAPES[rates.shape]?.reach(Math.exp(Math.max(1e-4, Math.min(300, data.targetLog)))) ?? 1
  const noise = scatters.map((one) => ({
    ...one,
    variances: data.extra.map((extra, i) => (one.scatter ** 2 + extra) * (data.penalties[i] ?? 1)),
  }))
  const cells: LoadCell[] = []
  const bench = emptyBench()
  for (let j = 0; j < rates.count; j++) {
    const gridLog = rates.from + j * rates.step
    const place = placeOf(data.columns, rates.shape, end, gridLog, SLACK * rates.step)
    for (const drift of drifts) {
      const log = Math.log(share * rates.step * (data.prior.drifts[drift] ?? 0))
      cells.push(cellOf(data, place, drift, noise, log, bench))
    }
  }
  return cells
}

/** What the sums of one cell are made in, again and again. */
type Bench = { state: Filtered; part: Part; reached: Reached; sum: Sum }
type Part = Solved & { log: number; limitLog: number; limitVariance: number }
type Sum = {
  top: number
  total: number
  clean: number
  clean2: number
  power: number
  power2: number
  scatter2: number
  limit: number
  limit2: number
}

/** Logarithm of a weight that is none. */
const LEAST_LOG = -1e12

const emptyBench = (): Bench => ({
  state: emptyState(),
  part: {
    clean: 0,
    tilt: 0,
    cleanVariance: 0,
    tiltVariance: 0,
    covariance: 0,
    log: 0,
    limitLog: 0,
    limitVariance: 0,
  },
  reached: { log: 0, deviation: 0 },
  sum: {
    top: LEAST_LOG,
    total: 0,
    clean: 0,
    clean2: 0,
    power: 0,
    power2: 0,
    scatter2: 0,
    limit: 0,
    limit2: 0,
  },
})
/** At each scatter clean drop and flow power have their closed form; the cell is what the scatters come to together. */
function cellOf(
  data: LoadData,
  place: Place,
  drift: number,
  noise: readonly { scatter: number; shareLog: number; variances: Float64Array }[],
  log: number,
  bench: Bench,
): LoadCell {
  const { sum, part } = bench
  const straying = DRIFTS[drift] ?? 0
  clear(sum)
  for (const { scatter, shareLog, variances } of noise) {
    filter(data.columns, place, variances, straying, bench.state)
    solve(data, place, straying, bench)
    // Of all that cannot be, nothing is more so than the rest: no infinity is taken from another.
    add(sum, part, Math.max(LEAST_LOG, part.log + shareLog), scatter)
  }
  const { total } = sum
  const clean = sum.clean / total
  const tilt = sum.power / total
  const limitLog = sum.limit / total
  return {
    shape: place.shape,
    drift,
    gridLog: place.gridLog,
    end: place.end,
    slack: place.slack,
    logWeight: log + sum.top + Math.log(total),
    cleanLog: data.prior.cleanLog.mean + clean,
    cleanDeviation: Math.sqrt(Math.max(0, sum.clean2 / total - clean * clean)),
    power: data.prior.power.mean + tilt,
    powerVariance: Math.max(0, sum.power2 / total - tilt * tilt),
    scatter: Math.sqrt(sum.scatter2 / total),
    limitLog,
    limitDeviation: Math.sqrt(Math.max(0, sum.limit2 / total - limitLog * limitLog)),
  }
}

function clear(sum: Sum): void {
  sum.top = LEAST_LOG
  sum.total = sum.clean = sum.clean2 = sum.power = sum.power2 = 0
  sum.scatter2 = sum.limit = sum.limit2 = 0
}

/** Adds a part by its weight, held against the greatest so far. */
function add(sum: Sum, part: Part, log: number, scatter: number): void {
  if (log > sum.top) {
    const less = Math.exp(sum.top - log)
    sum.total *= less
    sum.clean *= less
    sum.clean2 *= less
    sum.power *= less
    sum.power2 *= less
    sum.scatter2 *= less
    sum.limit *= less
    sum.limit2 *= less
    sum.top = log
  }
  const weight = Math.exp(log - sum.top)
  sum.total += weight
  sum.clean += weight * part.clean
  sum.clean2 += weight * (part.clean * part.clean + part.cleanVariance)
  sum.power += weight * part.tilt
  sum.power2 += weight * (part.tilt * part.tilt + part.tiltVariance)
  sum.scatter2 += weight * scatter * scatter
  sum.limit += weight * part.limitLog
  sum.limit2 += weight * (part.limitLog * part.limitLog + part.limitVariance)
}

/**
 * Two unknowns, clean drop and flow power, normal beforehand and after: the usual normal equations. What is known
 * beforehand of the use at the terminal drop counts as one reading of it. An event that took part of the way changes
 * where the course ends, and not what the readings before it say of the course.
 */
function solve(data: LoadData, place: Place, drift: number, { state, part, reached }: Bench): void {
  const { prior } = data
  const clean2 = prior.cleanLog.deviation * prior.cleanLog.deviation
  const power2 = prior.power.deviation * prior.power.deviation
  const a = state.w + 1 / clean2
  const b = state.wf
  const c = state.wff + 1 / power2
  const determinant = a * c - b * b
  part.clean = (c * state.wy - b * state.wyf) / determinant
  part.tilt = (a * state.wyf - b * state.wy) / determinant
  part.cleanVariance = c / determinant
  part.tiltVariance = a / determinant
  part.covariance = -b / determinant
  const doubt = data.flowDoubt * (prior.power.mean + part.tilt)
  reachedBy(place, state, part, drift, data.targetLog, doubt, reached)
  const known2 = prior.limitLog.deviation * prior.limitLog.deviation
  const open2 = reached.deviation * reached.deviation
  const away = prior.limitLog.mean - reached.log
  const both2 = known2 + open2
  const rest = state.wyy - part.clean * state.wy - part.tilt * state.wyf
  const spread = Math.log((determinant * clean2 * power2 * both2) / known2)
  part.log = -0.5 * (rest + state.logs + spread + (away * away) / both2)
  part.limitLog = reached.log + (away * open2) / both2
  part.limitVariance = (open2 * known2) / both2
  if (data.leftLog === data.targetLog) return
  reachedBy(place, state, part, drift, data.leftLog, doubt, reached)
  part.limitLog = reached.log
  part.limitVariance = reached.deviation * reached.deviation
}
