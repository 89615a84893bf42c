import { SHAPES } from './blocking-laws'
import type { LoadReading } from './cartridge-runs'
import type { LoadNoise } from './load-noise'
import type { LoadPrior } from './load-prior'

/** Scatter of a reading about the law, as a share: a coarse grid with long tails makes the belief a mixture, as t is. */
const SCATTERS = [0.03, 0.05, 0.08, 0.13, 0.22]
const SCATTER_PRIOR = [0.14, 0.24, 0.27, 0.22, 0.13]

export type LoadData = {
  readings: readonly LoadReading[]
  /** Logarithms of the drops less the prior's clean drop. */
  logs: number[]
  noise: LoadNoise
  /** What multiplies the variance of single readings. */
  penalties: readonly number[]
  terminalLog: number
  prior: LoadPrior
}

/** One law at one rate, with flow power, scatter and clean drop integrated out. */
export type LoadCell = {
  shape: number
  gridLog: number
  scale: number
  logWeight: number
  cleanLog: number
  cleanDeviation: number
  power: number
  /** Variance with which the readings leave the power open. */
  powerVariance: number
  scatter: number
}

/** Every law at every rate of the grid; a rate is told by the logarithm of the use at the terminal drop. */
export function loadCells(data: LoadData, grid: readonly number[]): LoadCell[] {
  // A cartridge that is at its end when new still grows: no law reaches less than its beginning.
  const usual = Math.max(1.0001, Math.exp(data.terminalLog - data.prior.cleanLog.mean))
  const weights = weightsOf(data)
  return SHAPES.flatMap((law, shape) =>
    grid.map((gridLog) => {
      const scale = law.reach(usual) / Math.exp(gridLog)
      return cellOf(data, weights, { shape, gridLog, scale })
    }),
  )
}

type Place = { shape: number; gridLog: number; scale: number }
/** Of one scatter: a weight a reading, and the sum of their logarithms. */
type Weights = { each: number[]; logs: number }[]

function weightsOf({ noise, penalties }: LoadData): Weights {
  return SCATTERS.map((scatter) => {
    const each = noise.extra.map((extra, i) => 1 / ((scatter ** 2 + extra) * (penalties[i] ?? 1)))
    return { each, logs: each.reduce((sum, w) => sum + Math.log(w), 0) }
  })
}

/** Sums over the readings at one scatter: of drops less growth (y) and of flows (f). */
type Sums = { w: number; wy: number; wyy: number; wf: number; wff: number; wyf: number }

function sumsOf(data: LoadData, growths: readonly number[], each: readonly number[]): Sums {
  const sums = { w: 0, wy: 0, wyy: 0, wf: 0, wff: 0, wyf: 0 }
  const middle = data.prior.power.mean
  for (let i = 0; i < growths.length; i++) {
    const weight = each[i] ?? 0
    const f = data.noise.flowLogs[i] ?? 0
    const y = (data.logs[i] ?? 0) - (growths[i] ?? 0) - middle * f
    sums.w += weight
    sums.wy += weight * y
    sums.wyy += weight * y * y
    sums.wf += weight * f
    sums.wff += weight * f * f
    sums.wyf += weight * y * f
  }
  return sums
}

/** At each scatter clean drop and flow power have their closed form; the cell is what the scatters come to together. */
function cellOf(data: LoadData, weights: Weights, place: Place): LoadCell {
  const law = SHAPES[place.shape]
  // A rate far too fast outgrows every number: it is told as the greatest there is, and weighs nothing.
  const growths = data.readings.map((r) =>
    Math.log(Math.min(Number.MAX_VALUE, law?.growth(place.scale * r.used) ?? 1)),
  )
  const parts = weights.map(({ each, logs }, k) => partOf(data, sumsOf(data, growths, each), logs, place, k))
  return together(parts, place)
}

type Part = {
  log: number
  cleanLog: number
  variance: number
  scatter: number
  power: number
  powerVariance: number
}

/** Logarithm of a weight that is none. */
const LEAST_LOG = -1e12

/** Two unknowns, clean drop and flow power, normal beforehand and after: the usual normal equations. */
function partOf(data: LoadData, sums: Sums, logs: number, place: Place, k: number): Part {
  const { prior } = data
  const clean2 = prior.cleanLog.deviation ** 2
  const power2 = prior.power.deviation ** 2
  const [a, b, c] = [sums.w + 1 / clean2, sums.wf, sums.wff + 1 / power2]
  const determinant = a * c - b * b
  const mean = (c * sums.wy - b * sums.wyf) / determinant
  const tilt = (a * sums.wyf - b * sums.wy) / determinant
  const cleanLog = prior.cleanLog.mean + mean
  const growth = Math.max(1.0001, Math.exp(data.terminalLog - cleanLog))
  const limitLog = Math.log((SHAPES[place.shape]?.reach(growth) ?? 0) / place.scale)
  const away = (limitLog - prior.limitLog.mean) / prior.limitLog.deviation
  const share = (prior.shapes[place.shape] ?? 0) * (SCATTER_PRIOR[k] ?? 0)
  const fit = sums.wyy - mean * sums.wy - tilt * sums.wyf - logs + Math.log(determinant * clean2 * power2)
  return {
    // Of all that cannot be, nothing is more so than the rest: no infinity is taken from another.
    log: Math.max(LEAST_LOG, Math.log(share) - 0.5 * (fit + away * away)),
    cleanLog,
    variance: c / determinant,
    scatter: SCATTERS[k] ?? 0,
    power: prior.power.mean + tilt,
    powerVariance: a / determinant,
  }
}

function together(parts: readonly Part[], place: Place): LoadCell {
  const top = parts.reduce((most, part) => Math.max(most, part.log), Number.NEGATIVE_INFINITY)
  let [total, clean, clean2, power, power2, scatter2] = [0, 0, 0, 0, 0, 0]
  for (const part of parts) {
    const weight = Math.exp(part.log - top)
    total += weight
    clean += weight * part.cleanLog
    clean2 += weight * (part.cleanLog ** 2 + part.variance)
    power += weight * part.power
    power2 += weight * (part.power ** 2 + part.powerVariance)
    scatter2 += weight * part.scatter ** 2
  }
  const [cleanLog, middle] = [clean / total, power / total]
  return {
    ...place,
    logWeight: top + Math.log(total),
    cleanLog,
    cleanDeviation: Math.sqrt(Math.max(0, clean2 / total - cleanLog ** 2)),
    power: middle,
    powerVariance: Math.max(0, power2 / total - middle ** 2),
    scatter: Math.sqrt(scatter2 / total),
  }
}
