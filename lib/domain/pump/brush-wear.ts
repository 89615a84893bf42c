import { freshState, takeIn, wearOn, wearOut } from './brush-filter'
import type { Weighted } from './forecast'
import { type Normal, onGrid } from './pooling'

/** What is believed of a set before its readings. */
export type WearPrior = {
  /** Logarithm of its life, h (or days). */
  life: Normal
  /** Shares of the kinds of wear, in the order of KINDS. */
  kinds: readonly number[]
  /** By how much the rate changes over a life, as a share, where it goes one way. */
  trend: Normal
}
type Worn = { used: number; shortestM: number }
type Lengths = { newM: number; minimumM: number }

/** What the hand may be off by, in marks of its rule; the readings choose. Rounding to the mark comes on top. */
const HANDS = [0.3, 0.6]
/** Marks of rules, m; a finer one gains nothing on a brush in its holder. */
const MARKS_M = [0.002, 0.001]
const FINEST_MARK_M = 0.0005
/** New brushes differ by this much from their sheet. */
const NEW_M = 0.0004
/**
 * How the rate of wear may change over a life. Most sets keep theirs; in some it wanders with moisture and load, in some it
 * goes one way: a spring slackens as the brush shortens, a commutator roughens.
 */
const KINDS = [
  { drift: 0, oneWay: false },
  { drift: 0.4, oneWay: false },
  { drift: 0, oneWay: true },
]
/** What is believed of the kind of wear of a set of which nothing is known. */
export const OPEN_KINDS: Pick<WearPrior, 'kinds' | 'trend'> = {
  kinds: [0.6, 0.15, 0.25],
  trend: { mean: 0, deviation: 0.5 },
}
/** Lives: first wide to see where the belief lies, then fine where it does. A finer grid changes little (tested). */
const LIVES = { scout: 12, fine: 11 }
const SCOUT_REACH = 3.2
const FINE_REACH = 2.8
/** Lives between two of the grid are left open by this share of the step, so that the grid does not show. */
const SLACK = 0.55
/** Cells with less than this of the likeliest one's weight (logarithm) are let go. */
const TRACE_LOG = -8
/** Middles of ten equal parts of a normal doubt: fewer would show in the ends of an interval. */
const ENDS = [-1.645, -1.036, -0.674, -0.385, -0.126, 0.126, 0.385, 0.674, 1.036, 1.645]

/** One life of the grid, error of the hand and kind of wear: the use at the minimum that it comes to, and its weight. */
type Cell = {
  kind: number
  gridLog: number
  limitLog: number
  deviation: number
  trend: Normal
  logWeight: number
}
type Grid = { from: number; step: number; count: number }

export type WearBelief = {
  /** Use at which the shortest brush reaches its minimum, h or days since the set was put in. */
  life: Weighted[]
  kinds: number[]
  trend: Normal
}

/**
 * Belief about the use at which the shortest brush reaches its minimum, straying of the wear to come included.
 *
 * Model   what is worn, its rate and the trend of the rate as a state that strays (growth models of West & Harrison 1997,
 *         Bayesian Forecasting and Dynamic Models, ch. 7; filter of Kalman 1960; both from memory), run for each life,
 *         reading error and kind of wear of a grid and weighed by how well it foretells each reading. What is known
 *         beforehand of the life counts as one reading of it.
 * Units   lengths m; use in hours or days, as the prior's.
 */
export function lifeBelief(
  readings: readonly Worn[],
  lengths: Lengths,
  prior: WearPrior,
  lives = LIVES,
): WearBelief {
  const room = lengths.newM - lengths.minimumM
  const seen = {
    readings: readings.map((r) => ({ used: r.used, worn: (lengths.newM - r.shortestM) / room })),
    errors: errorsOf(readings.map((r) => r.shortestM)).map((errorM) => errorM / room),
    newDoubt: NEW_M / room,
    prior,
  }
  const { mean, deviation } = prior.life
  const scout = cellsOf(seen, evenGrid(mean, SCOUT_REACH * deviation, lives.scout))
  const cells = cellsOf(seen, whereItLies(scout, lives))
  const top = topOf(cells)
  const used = readings.reduce((most, r) => Math.max(most, r.used), 0)
  const kept = cells.flatMap((cell) => {
    const log = cell.logWeight - top
    return log < TRACE_LOG ? [] : [{ cell, weight: Math.exp(log) }]
  })
  return {
    life: kept.flatMap(({ cell, weight }) => partsOf(cell, used, weight / ENDS.length)),
    kinds: sharesOf(kept),
    trend: trendOf(kept, prior.trend),
  }
}

type Kept = readonly { cell: Cell; weight: number }[]

function sharesOf(kept: Kept): number[] {
  const total = kept.reduce((sum, { weight }) => sum + weight, 0)
  return KINDS.map(
    (_, k) => kept.reduce((sum, { cell, weight }) => sum + (cell.kind === k ? weight : 0), 0) / total,
  )
}

/** The trend of the kind of wear that has one; what was believed before where nothing speaks for that kind. */
function trendOf(kept: Kept, before: Normal): Normal {
  let [total, first, second] = [0, 0, 0]
  for (const { cell, weight } of kept) {
    if (!KINDS[cell.kind]?.oneWay) continue
    total += weight
    first += weight * cell.trend.mean
    second += weight * (cell.trend.mean ** 2 + cell.trend.deviation ** 2)
  }
  if (total === 0) return before
  return { mean: first / total, deviation: Math.sqrt(Math.max(0, second / total - (first / total) ** 2)) }
}

const evenGrid = (middle: number, reach: number, count: number): Grid => ({
  from: middle - reach,
  step: (2 * reach) / (count - 1),
  count,
})

const topOf = (cells: readonly Cell[]): number =>
  cells.reduce((most, cell) => Math.max(most, cell.logWeight), Number.NEGATIVE_INFINITY)

/** The grid of lives on which the belief stands. */
function whereItLies(cells: readonly Cell[], { scout, fine }: typeof LIVES): Grid {
  const { mean, variance } = onGrid(cells, topOf(cells))
  const step = ((cells.at(-1)?.gridLog ?? 0) - (cells[0]?.gridLog ?? 0)) / (scout - 1)
  const spread = variance + (step / 4) ** 2
  return evenGrid(mean, FINE_REACH * Math.sqrt(spread), fine)
}

/** Errors a reading may have, from the coarsest mark to which every length was rounded. */
function errorsOf(lengthsM: readonly number[]): number[] {
  const follows = (mark: number) =>
    lengthsM.every((length) => Math.abs(length / mark - Math.round(length / mark)) < 0.02)
  const told = new Set(lengthsM).size >= 3
  const mark = (told ? MARKS_M.find(follows) : undefined) ?? FINEST_MARK_M
  return HANDS.map((hand) => mark * Math.sqrt(hand ** 2 + 1 / 12))
}

type Seen = {
  readings: readonly { used: number; worn: number }[]
  errors: readonly number[]
  newDoubt: number
  prior: WearPrior
}

function cellsOf(seen: Seen, { from, step, count }: Grid): Cell[] {
  return Array.from({ length: count }, (_, i) => from + i * step).flatMap((gridLog) =>
    KINDS.flatMap((_, kind) => seen.errors.map((error) => cellOf(seen, gridLog, SLACK * step, kind, error))),
  )
}

function cellOf(
  { readings, newDoubt, prior }: Seen,
  gridLog: number,
  slack: number,
  kind: number,
  error: number,
): Cell {
  const life = Math.exp(gridLog)
  const { drift = 0, oneWay = false } = KINDS[kind] ?? {}
  const state = freshState(newDoubt, slack, oneWay ? prior.trend : { mean: 0, deviation: 0 })
  let before = 0
  for (const { used, worn } of readings) {
    wearOn(state, Math.max(0, used - before) / life, drift)
    takeIn(state, worn, error)
    before = Math.max(before, used)
  }
  const { log, trend } = state
  const trendDeviation = Math.sqrt(Math.max(0, state.tt))
  const { left, deviation } = wearOut(state, drift)
  const total = Math.max(1e-6, before / life + left)
  const [open2, known2] = [Math.min(2, deviation / total) ** 2, prior.life.deviation ** 2]
  const reached = gridLog + Math.log(total)
  const away = prior.life.mean - reached
  const both2 = open2 + known2
  return {
    kind,
    gridLog,
    limitLog: reached + (away * open2) / both2,
    deviation: Math.sqrt((open2 * known2) / both2),
    trend: { mean: trend, deviation: trendDeviation },
    logWeight: log + Math.log(prior.kinds[kind] ?? 0) - 0.5 * (away ** 2 / both2 + Math.log(both2)),
  }
}

/** Use at the minimum length, as equal parts: what is left, shorter and longer in proportion to its doubt. */
function partsOf(cell: Cell, used: number, weight: number): Weighted[] {
  const limit = Math.exp(cell.limitLog)
  const left = limit - used
  const doubt = (cell.deviation * limit) / left
  if (left > 0 && doubt < 1) return ENDS.map((z) => ({ value: used + left * Math.exp(z * doubt), weight }))
  return ENDS.map((z) => ({ value: limit * Math.exp(z * cell.deviation), weight }))
}
