import { SHAPES } from './blocking-laws'
import type { LoadReading } from './cartridge-runs'
import { logMoments, type Weighted } from './forecast'
import { type LoadCell, type LoadData, loadCells, type Rates, ROUGH_SCATTERS, SCATTERS } from './load-grid'
import { loadNoise } from './load-noise'
import { type LoadPath, pathOf } from './load-path'
import { DRIFTS, type LoadPrior } from './load-prior'
import { onGrid } from './pooling'

/** Rates a law: first wide to see where the belief lies, nearer, then fine. A finer grid changes little (tested). */
const RATES = { scout: 9, near: 6, fine: 7 }
const SCOUT_REACH = 3.2
const FINE_REACH = 2.2
/** The drift with which the grid is scouted. */
const SCOUT_DRIFTS = [1]
/** Laws with less than this of the likeliest one's weight are let go. */
const TRACE = 1e-3

/** One law at one rate and drift that the readings leave open, and how much of the belief stands on it. */
export type LoadLaw = { cell: LoadCell; weight: number }

export type LoadBelief = {
  /** Use since the change at which the terminal drop is reached at the reference flow. */
  limits: Weighted[]
  limitLog: { mean: number; deviation: number }
  cleanLog: { mean: number; deviation: number }
  shapes: number[]
  drifts: number[]
  power: { mean: number; deviation: number }
  /** Every law with more than a trace of the belief, to draw the course of the drop from. */
  laws: LoadLaw[]
  /** For each reading the logarithm of what was read over what the likeliest law expects. */
  misfits: number[]
  /** The course of the drop by one of the laws. */
  path: (law: LoadLaw) => LoadPath
}

export type LoadQuestion = {
  terminalPa: number
  /** Deviation of the logarithm of the reference flow, where that had to be taken from the readings. */
  flowDoubt: number
  /** By how much an event has raised the drop beyond its course (logarithm): so much less growth is left. */
  jump: number
}

/**
 * Belief about the use at the terminal drop, given readings of one cartridge: every law, rate and drift on a grid, weighed
 * by how well it foretells each reading from those before, with flow power, scatter and clean drop integrated out.
 *
 * Shape   `penalties` multiply the variance of single readings (1 for a trusted one).
 * Cost    laws × rates × drifts × scatters × readings: some ten thousand short steps.
 */
export function loadBelief(
  readings: readonly LoadReading[],
  question: LoadQuestion,
  prior: LoadPrior,
  penalties: readonly number[],
  rates = RATES,
): LoadBelief {
  const order = readings.map((_, i) => i).sort((a, b) => (readings[a]?.used ?? 0) - (readings[b]?.used ?? 0))
  const asRead = dataOf(readings, order, question, prior, penalties, [])
  const { mean, deviation } = prior.limitLog
  const step = (2 * SCOUT_REACH * deviation) / (rates.scout - 1)
  const wide = SHAPES.map((_, shape) => ({
    shape,
    from: mean - SCOUT_REACH * deviation,
    step,
    count: rates.scout,
  }))
  const scout = wide.map((one) => loadCells(asRead, one, SCOUT_DRIFTS, ROUGH_SCATTERS))
  const rough = misfitsOf(likeliest(scout.flat()), asRead, order)
  const expected = readings.map((r, i) => r.dropPa * Math.exp(-(rough[i] ?? 0)))
  const data = dataOf(readings, order, question, prior, penalties, expected)
  const near = nearer(scout, rates.near).map((one) => loadCells(data, one, SCOUT_DRIFTS, ROUGH_SCATTERS))
  const cells = nearer(near, rates.fine).flatMap((one) => loadCells(data, one, ALL_DRIFTS, SCATTERS))
  return summarise(cells, data, order, Math.max(0, readings.at(-1)?.used ?? 0))
}

const ALL_DRIFTS = DRIFTS.map((_, k) => k)

/** For each law with more than a trace of the belief, where the belief about its rate lies, in a few even steps. */
function nearer(cells: readonly (readonly LoadCell[])[], count: number): Rates[] {
  const top = likeliest(cells.flat())?.logWeight ?? 0
  return cells.flatMap((own) => {
    const { total, mean, variance } = onGrid(own, top)
    const shape = own[0]?.shape
    if (shape === undefined || total < TRACE) return []
    const step = (own[1]?.gridLog ?? 0) - (own[0]?.gridLog ?? 0)
    const reach = FINE_REACH * Math.sqrt(variance + (step / 4) ** 2)
    return [{ shape, from: mean - reach, step: (2 * reach) / (count - 1), count }]
  })
}

/**
 * What the belief expects of a reading before it is seen: the logarithm of its drop, and the deviation with which it is
 * expected, from the laws left open, their scatter and the gauge's step.
 */
export function expectedLog(belief: LoadBelief, reading: LoadReading): { mean: number; deviation: number } {
  let [total, first, second] = [0, 0, 0]
  const flow = Math.log(reading.flowRatio ?? 1)
  for (const law of belief.laws) {
    const { log, variance } = belief.path(law).at(reading.used, flow)
    total += law.weight
    first += law.weight * log
    second += law.weight * (log * log + variance + law.cell.scatter ** 2)
  }
  const mean = first / total
  const [extra] = loadNoise([reading], [Math.exp(mean)]).extra
  return { mean, deviation: Math.sqrt(Math.max(0, second / total - mean * mean) + (extra ?? 0)) }
}

function dataOf(
  readings: readonly LoadReading[],
  order: readonly number[],
  question: LoadQuestion,
  prior: LoadPrior,
  penalties: readonly number[],
  expectedPa: readonly number[],
): LoadData {
  const noise = loadNoise(readings, expectedPa)
  const inOrder = (read: (i: number) => number) => Float64Array.from(order, read)
  const flowOf = (i: number) => noise.flowLogs[i] ?? 0
  const targetLog = Math.log(question.terminalPa) - prior.cleanLog.mean
  return {
    columns: {
      used: inOrder((i) => Math.max(0, readings[i]?.used ?? 0)),
      logs: inOrder(
        (i) => Math.log(readings[i]?.dropPa ?? 1) - prior.cleanLog.mean - prior.power.mean * flowOf(i),
      ),
      flowLogs: inOrder(flowOf),
    },
    extra: inOrder((i) => noise.extra[i] ?? 0),
    penalties: inOrder((i) => penalties[i] ?? 1),
    prior,
    targetLog,
    leftLog: targetLog - question.jump,
    flowDoubt: question.flowDoubt,
  }
}

const likeliest = (cells: readonly LoadCell[]): LoadCell | undefined =>
  cells.reduce<LoadCell | undefined>(
    (best, cell) => (best && best.logWeight >= cell.logWeight ? best : cell),
    undefined,
  )

/** Middles of five equal parts of a normal doubt, spread so that together they have its deviation. */
const PARTS = [-1.479, -0.5547, 0, 0.5547, 1.479]

/** The use at the limit in equal parts: what is left of the way, shorter and longer in proportion to its doubt. */
function partsOf(cell: LoadCell, weight: number, used: number): Weighted[] {
  const limit = Math.exp(cell.limitLog)
  const left = limit - used
  const doubt = (cell.limitDeviation * limit) / left
  const share = weight / PARTS.length
  if (left > 0 && doubt < 1)
    return PARTS.map((z) => ({ value: used + left * Math.exp(z * doubt), weight: share }))
  return PARTS.map((z) => ({ value: limit * Math.exp(z * cell.limitDeviation), weight: share }))
}

function summarise(
  cells: readonly LoadCell[],
  data: LoadData,
  order: readonly number[],
  used: number,
): LoadBelief {
  const best = likeliest(cells)
  const top = best?.logWeight ?? 0
  const laws = cells.flatMap((cell) => {
    const weight = Math.exp(cell.logWeight - top)
    return weight < TRACE ? [] : [{ cell, weight }]
  })
  const total = laws.reduce((sum, { weight }) => sum + weight, 0)
  const shareOf = (holds: (cell: LoadCell) => boolean) =>
    laws.reduce((sum, { cell, weight }) => sum + (holds(cell) ? weight : 0), 0) / total
  const limits = laws.flatMap(({ cell, weight }) => partsOf(cell, weight, used))
  return {
    limits,
    limitLog: logMoments(limits),
    cleanLog: moments(laws, (cell) => [cell.cleanLog, cell.cleanDeviation ** 2]),
    laws,
    shapes: SHAPES.map((_, k) => shareOf(({ shape }) => shape === k)),
    drifts: DRIFTS.map((_, k) => shareOf(({ drift }) => drift === k)),
    power: moments(laws, (cell) => [cell.power, cell.powerVariance]),
    misfits: misfitsOf(best, data, order),
    path: (law) => pathOf(law.cell, data),
  }
}

/** Mean and deviation of a mixture of normal beliefs. */
function moments(
  laws: readonly LoadLaw[],
  of: (cell: LoadCell) => [mean: number, variance: number],
): { mean: number; deviation: number } {
  let [total, first, second] = [0, 0, 0]
  for (const { cell, weight } of laws) {
    const [mean, variance] = of(cell)
    total += weight
    first += weight * mean
    second += weight * (variance + mean * mean)
  }
  const mean = first / total
  return { mean, deviation: Math.sqrt(Math.max(0, second / total - mean * mean)) }
}

/** For each reading, as it was given, the logarithm of what was read over what a law expects. */
function misfitsOf(cell: LoadCell | undefined, data: LoadData, order: readonly number[]): number[] {
  const out = order.map(() => 0)
  if (!cell) return out
  const { misfits } = pathOf(cell, data)
  order.forEach((i, k) => {
    out[i] = misfits[k] ?? 0
  })
  return out
}
