import { dropLogOf, type LoadLaw, limitsOf, POWER_PRIOR, POWERS, SHAPE_PRIOR, SHAPES } from './blocking-laws'
import type { LoadReading } from './cartridge-runs'
import { logMoments, type Weighted } from './forecast'

/** Scatter of a reading about the law, as a share. */
const SCATTERS = [0.03, 0.05, 0.08, 0.13, 0.22]
const SCATTER_PRIOR = [0.12, 0.28, 0.32, 0.2, 0.08]
/** Below this drop the gauge's own step (a kilopascal or so) counts as much as the share. */
const GAUGE_PA = 20_000
/** A drop read at unknown flow strays as the flow does: counted as this many times the variance of a full reading. */
const FLOW_UNKNOWN = 9
/** Points of the grid of rates: first wide to see where the belief lies, then fine where it does. */
const SCOUT = 40
const RATES = 26

/** What is believed before this cartridge's readings, in natural logarithms. */
export type LoadPrior = {
  cleanLog: { mean: number; deviation: number }
  /** Use at the terminal drop. */
  limitLog: { mean: number; deviation: number }
  shapes: readonly number[]
  powers: readonly number[]
}

export type LoadBelief = {
  /** Use since the change at which the terminal drop is reached at the reference flow. */
  limits: Weighted[]
  limitLog: { mean: number; deviation: number }
  cleanLog: { mean: number; deviation: number }
  shapes: number[]
  powers: number[]
  /** Every law with more than a trace of the belief, to draw the course of the drop from. */
  laws: LoadLaw[]
  /** For each reading the logarithm of what was read over what the likeliest law expects. */
  misfits: number[]
  /** Scatter of the likeliest law. */
  scatter: number
}

export const openPrior = (terminalPa: number, limitUse: number): LoadPrior => ({
  // A clean cartridge takes some fifth of the terminal drop; lives differ by a factor of e either way.
  cleanLog: { mean: Math.log(terminalPa * 0.2), deviation: 0.6 },
  limitLog: { mean: Math.log(limitUse), deviation: 1.05 },
  shapes: SHAPE_PRIOR,
  powers: POWER_PRIOR,
})

/**
 * Belief about the use at the terminal drop, given readings of one cartridge: every law, flow power, rate and scatter
 * on a grid, weighed by how well it tells the readings; the clean drop is integrated out in closed form.
 *
 * Shape   `penalties` multiply the variance of single readings (1 for a trusted one); `flowDoubt` is the deviation of
 *         the logarithm of the reference flow, where that had to be taken from the readings.
 * Cost    laws × powers × rates × (readings + scatters): some thousand short steps.
 */
export function loadBelief(
  readings: readonly LoadReading[],
  terminalPa: number,
  prior: LoadPrior,
  penalties: readonly number[],
  flowDoubt = 0,
): LoadBelief {
  const data = dataOf(readings, terminalPa, prior, penalties)
  const scout = cellsOf(data, spread(prior.limitLog.mean, 3.4 * prior.limitLog.deviation, SCOUT), [1])
  const seen = gridMoments(scout)
  const width = Math.min(4 * seen.deviation + 0.15, 3.4 * prior.limitLog.deviation)
  return summarise(
    cellsOf(
      data,
      spread(seen.mean, width, RATES),
      POWERS.map((_, p) => p),
    ),
    data,
    flowDoubt,
  )
}

/**
 * What the belief expects of a reading before it is seen: the logarithm of its drop, and the deviation with which it is
 * expected, from the laws left open, their scatter and the gauge's step.
 */
export function expectedLog(belief: LoadBelief, reading: LoadReading): { mean: number; deviation: number } {
  let [total, first, second, scatter2] = [0, 0, 0, 0]
  const flow = Math.log(reading.flowRatio ?? 1)
  for (const law of belief.laws) {
    const log = dropLogOf(law, reading.used) + (POWERS[law.power] ?? 1) * flow
    total += law.weight
    first += law.weight * log
    second += law.weight * log * log
    scatter2 += law.weight * law.scatter ** 2
  }
  const mean = first / total
  const open = Math.max(0, second / total - mean * mean)
  const noise = (scatter2 / total) * (1 + (GAUGE_PA / reading.dropPa) ** 2)
  return { mean, deviation: Math.sqrt(open + noise * (reading.flowRatio === null ? FLOW_UNKNOWN : 1)) }
}

/** The power of flow that the belief leans to. */
export function powerOf(belief: LoadBelief): number {
  return belief.powers.reduce((sum, share, k) => sum + share * (POWERS[k] ?? 0), 0)
}

const spread = (middle: number, reach: number, points: number): number[] =>
  Array.from({ length: points }, (_, i) => middle - reach + (2 * reach * i) / (points - 1))

type Data = {
  readings: readonly LoadReading[]
  /** Logarithms of drop less the prior's clean drop, of flow, and the weight of each reading. */
  logs: number[]
  flows: number[]
  weights: number[]
  logWeights: number
  terminalLog: number
  prior: LoadPrior
}

function dataOf(
  readings: readonly LoadReading[],
  terminalPa: number,
  prior: LoadPrior,
  penalties: readonly number[],
): Data {
  const weights = readings.map(
    (r, i) =>
      1 /
      ((1 + (GAUGE_PA / r.dropPa) ** 2) * (r.flowRatio === null ? FLOW_UNKNOWN : 1) * (penalties[i] ?? 1)),
  )
  return {
    readings,
    logs: readings.map((r) => Math.log(r.dropPa) - prior.cleanLog.mean),
    flows: readings.map((r) => Math.log(r.flowRatio ?? 1)),
    weights,
    logWeights: weights.reduce((sum, w) => sum + Math.log(w), 0),
    terminalLog: Math.log(terminalPa),
    prior,
  }
}

/** Every law, power, rate and scatter, in that order of nesting, as columns: an object a cell would be most of the cost. */
type Cells = {
  grid: readonly number[]
  powers: readonly number[]
  logWeight: Float64Array
  cleanLog: Float64Array
}

type Place = { shape: number; power: number; gridLog: number; scatter: number }

function placeOf(cells: Cells, index: number): Place {
  const scatter = SCATTERS[index % SCATTERS.length] ?? 0
  const rest = Math.floor(index / SCATTERS.length)
  const power = cells.powers[rest % cells.powers.length] ?? 0
  const rate = Math.floor(rest / cells.powers.length)
  return {
    scatter,
    power,
    gridLog: cells.grid[rate % cells.grid.length] ?? 0,
    shape: Math.floor(rate / cells.grid.length),
  }
}

function cellsOf(data: Data, grid: readonly number[], powers: readonly number[]): Cells {
  const size = SHAPES.length * grid.length * powers.length * SCATTERS.length
  const cells: Cells = {
    grid,
    powers,
    logWeight: new Float64Array(size),
    cleanLog: new Float64Array(size),
  }
  const growths = new Float64Array(data.readings.length)
  let index = 0
  for (const [shape, law] of SHAPES.entries()) {
    for (const gridLog of grid) {
      const scale = scaleOf(data, shape, gridLog)
      for (const [i, r] of data.readings.entries()) growths[i] = Math.log(law.growth(scale * r.used))
      for (const power of powers) {
        fillCells(cells, index, data, growths, { shape, power, scale })
        index += SCATTERS.length
      }
    }
  }
  return cells
}

/** Rate of a law that reaches the terminal drop at e^gridLog from the usual clean drop. */
function scaleOf(data: Data, shape: number, gridLog: number): number {
  const law = SHAPES[shape]
  const usual = Math.exp(data.terminalLog - data.prior.cleanLog.mean)
  return law ? law.reach(usual) / Math.exp(gridLog) : 0
}

/** The clean drop's posterior and the weight of one law, power and rate, for each scatter. */
function fillCells(
  cells: Cells,
  from: number,
  data: Data,
  growths: Float64Array,
  place: { shape: number; power: number; scale: number },
): void {
  const { prior } = data
  const law = SHAPES[place.shape]
  const exponent = POWERS[place.power] ?? 1
  const { w, wy, wyy } = sums(data, growths, exponent)
  const between = prior.cleanLog.deviation ** 2
  const priorLog = Math.log(prior.shapes[place.shape] ?? 0) + Math.log(prior.powers[place.power] ?? 0)
  for (let k = 0; k < SCATTERS.length; k++) {
    const noise = (SCATTERS[k] ?? 1) ** 2
    const precision = w / noise + 1 / between
    const mean = wy / noise / precision
    const cleanLog = prior.cleanLog.mean + mean
    const growth = Math.max(1.0001, Math.exp(data.terminalLog - cleanLog))
    const limitLog = Math.log((law ? law.reach(growth) : 0) / place.scale)
    const away = (limitLog - prior.limitLog.mean) / prior.limitLog.deviation
    const fit = wyy / noise - mean * mean * precision + growths.length * Math.log(noise) - data.logWeights
    cells.logWeight[from + k] =
      priorLog + Math.log(SCATTER_PRIOR[k] ?? 0) - 0.5 * (fit + Math.log(precision * between) + away * away)
    cells.cleanLog[from + k] = cleanLog
  }
}

function sums(data: Data, growths: Float64Array, exponent: number): { w: number; wy: number; wyy: number } {
  let w = 0
  let wy = 0
  let wyy = 0
  for (let i = 0; i < growths.length; i++) {
    const weight = data.weights[i] ?? 0
    const y = (data.logs[i] ?? 0) - exponent * (data.flows[i] ?? 0) - (growths[i] ?? 0)
    w += weight
    wy += weight * y
    wyy += weight * y * y
  }
  return { w, wy, wyy }
}

function likeliest(cells: Cells): number {
  let best = 0
  for (let i = 1; i < cells.logWeight.length; i++) {
    if ((cells.logWeight[i] ?? 0) > (cells.logWeight[best] ?? 0)) best = i
  }
  return best
}

/** Where on the grid of rates the belief lies. */
function gridMoments(cells: Cells): { mean: number; deviation: number } {
  const top = cells.logWeight[likeliest(cells)] ?? 0
  const belief = Array.from(cells.logWeight, (log, i) => ({
    value: Math.exp(placeOf(cells, i).gridLog),
    weight: Math.exp(log - top),
  }))
  return logMoments(belief)
}

function summarise(cells: Cells, data: Data, flowDoubt: number): LoadBelief {
  const best = likeliest(cells)
  const top = cells.logWeight[best] ?? 0
  const shapes = SHAPES.map(() => 0)
  const powers = POWERS.map(() => 0)
  const laws: LoadLaw[] = []
  let total = 0
  for (let i = 0; i < cells.logWeight.length; i++) {
    const weight = Math.exp((cells.logWeight[i] ?? 0) - top)
    if (weight < 1e-4) continue
    const place = placeOf(cells, i)
    total += weight
    shapes[place.shape] = (shapes[place.shape] ?? 0) + weight
    powers[place.power] = (powers[place.power] ?? 0) + weight
    const scale = scaleOf(data, place.shape, place.gridLog)
    laws.push({ ...place, weight, scale, cleanLog: cells.cleanLog[i] ?? 0 })
  }
  const place = placeOf(cells, best)
  const limits = laws.flatMap((law) => limitsOf(law, data.terminalLog, flowDoubt))
  return {
    limits,
    limitLog: logMoments(limits),
    cleanLog: logMoments(laws.map((law) => ({ value: Math.exp(law.cleanLog), weight: law.weight }))),
    laws,
    shapes: shapes.map((x) => x / total),
    powers: powers.map((x) => x / total),
    misfits: misfitsOf(place, cells.cleanLog[best] ?? 0, data),
    scatter: place.scatter,
  }
}

function misfitsOf(place: Place, cleanLog: number, data: Data): number[] {
  const law = SHAPES[place.shape]
  const scale = scaleOf(data, place.shape, place.gridLog)
  return data.readings.map((r) => {
    const growth = law ? law.growth(scale * r.used) : 1
    const flow = (POWERS[place.power] ?? 1) * Math.log(r.flowRatio ?? 1)
    return Math.log(r.dropPa) - cleanLog - flow - Math.log(growth)
  })
}
