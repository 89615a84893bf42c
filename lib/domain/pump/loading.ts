import { dropLogOf, type LoadLaw, limitsOf, SHAPES } from './blocking-laws'
import type { LoadReading } from './cartridge-runs'
import { logMoments, type Weighted } from './forecast'
import { type LoadCell, type LoadData, loadCells } from './load-grid'
import { loadNoise } from './load-noise'
import type { LoadPrior } from './load-prior'

/** Points of the grid of rates: first wide to see where the belief lies, then fine where it does. */
const SCOUT = 16
const RATES = 22
/** Laws with less than this of the likeliest one's weight are let go. */
const TRACE = 1e-3

export type LoadBelief = {
  /** Use since the change at which the terminal drop is reached at the reference flow. */
  limits: Weighted[]
  limitLog: { mean: number; deviation: number }
  cleanLog: { mean: number; deviation: number }
  shapes: number[]
  power: { mean: number; deviation: number }
  /** Every law with more than a trace of the belief, to draw the course of the drop from. */
  laws: LoadLaw[]
  /** For each reading the logarithm of what was read over what the likeliest law expects. */
  misfits: number[]
}

/**
 * Belief about the use at the terminal drop, given readings of one cartridge: every law and rate on a grid, weighed by
 * how well it tells the readings, with flow power, scatter and clean drop integrated out.
 *
 * Shape   `penalties` multiply the variance of single readings (1 for a trusted one); `flowDoubt` is the deviation of
 *         the logarithm of the reference flow, where that had to be taken from the readings.
 * Cost    laws × rates × scatters × readings: some ten thousand short steps.
 */
export function loadBelief(
  readings: readonly LoadReading[],
  terminalPa: number,
  prior: LoadPrior,
  penalties: readonly number[],
  flowDoubt = 0,
): LoadBelief {
  const asRead = dataOf(readings, terminalPa, prior, penalties, [])
  const reach = 3.4 * prior.limitLog.deviation
  const scout = loadCells(asRead, spread(prior.limitLog.mean, reach, SCOUT))
  const rough = likeliest(scout)
  const expected = readings.map((r, i) => r.dropPa * Math.exp(-misfitOf(rough, asRead, i)))
  const data = dataOf(readings, terminalPa, prior, penalties, expected)
  const seen = logMoments(
    weighted(scout).map(({ cell, weight }) => ({ value: Math.exp(cell.gridLog), weight })),
  )
  const width = Math.min(4 * seen.deviation + 0.15, reach)
  return summarise(loadCells(data, spread(seen.mean, width, RATES)), data, flowDoubt)
}

/**
 * What the belief expects of a reading before it is seen: the logarithm of its drop, and the deviation with which it is
 * expected, from the laws left open, their scatter and the gauge's step.
 */
export function expectedLog(belief: LoadBelief, reading: LoadReading): { mean: number; deviation: number } {
  let [total, first, second, scatter2] = [0, 0, 0, 0]
  const flow = Math.log(reading.flowRatio ?? 1)
  for (const law of belief.laws) {
    const log = dropLogOf(law, reading.used) + law.power * flow
    total += law.weight
    first += law.weight * log
    second += law.weight * (log * log + law.cleanDeviation ** 2)
    scatter2 += law.weight * law.scatter ** 2
  }
  const mean = first / total
  const open = Math.max(0, second / total - mean * mean)
  const [extra] = loadNoise([reading], [Math.exp(mean)]).extra
  return { mean, deviation: Math.sqrt(open + scatter2 / total + (extra ?? 0)) }
}

const spread = (middle: number, reach: number, points: number): number[] =>
  Array.from({ length: points }, (_, i) => middle - reach + (2 * reach * i) / (points - 1))

const dataOf = (
  readings: readonly LoadReading[],
  terminalPa: number,
  prior: LoadPrior,
  penalties: readonly number[],
  expectedPa: readonly number[],
): LoadData => ({
  readings,
  logs: readings.map((r) => Math.log(r.dropPa) - prior.cleanLog.mean),
  noise: loadNoise(readings, expectedPa),
  penalties,
  terminalLog: Math.log(terminalPa),
  prior,
})

const likeliest = (cells: readonly LoadCell[]): LoadCell | undefined =>
  cells.reduce<LoadCell | undefined>(
    (best, cell) => (best && best.logWeight >= cell.logWeight ? best : cell),
    undefined,
  )

/** Cells with more than a trace of the belief. */
function weighted(cells: readonly LoadCell[]): { cell: LoadCell; weight: number }[] {
  const top = likeliest(cells)?.logWeight ?? 0
  return cells.flatMap((cell) => {
    const weight = Math.exp(cell.logWeight - top)
    return weight < TRACE ? [] : [{ cell, weight }]
  })
}

function summarise(cells: readonly LoadCell[], data: LoadData, flowDoubt: number): LoadBelief {
  const kept = weighted(cells)
  const total = kept.reduce((sum, { weight }) => sum + weight, 0)
  const laws: LoadLaw[] = kept.map(({ cell, weight }) => ({ ...cell, weight }))
  const best = likeliest(cells)
  const limits = laws.flatMap((law) => limitsOf(law, data.terminalLog, flowDoubt))
  return {
    limits,
    limitLog: logMoments(limits),
    cleanLog: logMoments(laws.map((law) => ({ value: Math.exp(law.cleanLog), weight: law.weight }))),
    laws,
    shapes: SHAPES.map(
      (_, k) => kept.reduce((sum, { cell, weight }) => sum + (cell.shape === k ? weight : 0), 0) / total,
    ),
    power: moments(
      kept.map(({ cell, weight }) => ({ mean: cell.power, variance: cell.powerVariance, weight })),
    ),
    misfits: data.readings.map((_, i) => misfitOf(best, data, i)),
  }
}

/** Mean and deviation of a mixture of normal beliefs. */
function moments(parts: readonly { mean: number; variance: number; weight: number }[]): {
  mean: number
  deviation: number
} {
  const total = parts.reduce((sum, { weight }) => sum + weight, 0)
  const mean = parts.reduce((sum, part) => sum + part.weight * part.mean, 0) / total
  const second = parts.reduce((sum, part) => sum + part.weight * (part.variance + (part.mean - mean) ** 2), 0)
  return { mean, deviation: Math.sqrt(second / total) }
}

/** Logarithm of what was read over what a law expects. */
function misfitOf(cell: LoadCell | undefined, data: LoadData, i: number): number {
  const reading = data.readings[i]
  if (!cell || !reading) return 0
  const flow = cell.power * (data.noise.flowLogs[i] ?? 0)
  return Math.log(reading.dropPa) - dropLogOf({ ...cell, weight: 1 }, reading.used) - flow
}
