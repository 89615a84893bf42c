import { weightedLeastSquares } from '@/lib/domain/stats/least-squares'
import type { LevelReading } from './result'

/** level(t) = static + start × exp(−t / T0): the water's way back, in metres below the measuring point. */
export type Exponential = {
  staticM: number
  /** Drawdown at the moment the clock started. */
  startM: number
  timeConstantS: number
  /** Robust standard deviation of the readings about the curve. */
  residualM: number
  /** Weight of each reading, 0 (set aside) to 1 (fully used). */
  weights: number[]
  /** Standard errors of ln T0, ln start and static (0 where static was measured), and the freedom behind them. */
  logTimeError: number
  staticErrorM: number
  freedom: number
}

/** Tapes and loggers are no better than this, so no fit claims to be. */
const READING_ERROR_M = 0.001
const GRID = 26
/** Tukey's constant: 95 % of least squares' efficiency on clean readings, blind to a reading five deviations off. */
const BISQUARE = 4.685

/**
 * Robust exponential through the readings: least absolute deviations over a grid of T0 to find the curve that most
 * readings agree on, then Tukey's bisquare with that fit's scale.
 *
 * Why in levels and not a line through ln s: a tape errs by the same centimetre at any level, so the logarithm would
 * give the last readings, near static, the loudest say; and it cannot take a reading above static at all.
 * Why bisquare after absolute deviations: one mistyped level must lose its say entirely, wherever it stands.
 *
 * Shape   readings in order of time, at least as many as unknowns plus one.
 * Answer  null when no curve can be drawn (all at one time, or the robust fit does not settle).
 */
export function fitExponential(
  readings: readonly LevelReading[],
  staticM: number | null,
): Exponential | null {
  const start = leastAbsolute(readings, staticM)
  if (!start) return null
  const unknowns = staticM === null ? 3 : 2
  const scale = robustScale(start.residuals, unknowns)
  return bisquare(readings, staticM, start, scale)
}

type Curve = { staticM: number; startM: number; timeConstantS: number }
type Start = Curve & { residuals: number[]; loss: number }

function leastAbsolute(readings: readonly LevelReading[], staticM: number | null): Start | null {
  const first = readings[0]
  const last = readings[readings.length - 1]
  if (!first || !last) return null
  const spanS = last.elapsedS - first.elapsedS
  if (!(spanS > 0)) return null
  const low = Math.log(spanS / 200)
  const high = Math.log(spanS * 30)
  const step = (high - low) / (GRID - 1)
  let best: Start | null = null
  let bestLog = low
  for (let i = 0; i < GRID; i++) {
    const candidate = absoluteAt(readings, staticM, Math.exp(low + i * step))
    if (candidate && (!best || candidate.loss < best.loss)) {
      best = candidate
      bestLog = low + i * step
    }
  }
  return best && refine(readings, staticM, best, bestLog, step)
}

/** Halves the grid step about the best T0 until it no longer matters. */
function refine(
  readings: readonly LevelReading[],
  staticM: number | null,
  from: Start,
  fromLog: number,
  gridStep: number,
): Start {
  let best = from
  let bestLog = fromLog
  for (let step = gridStep / 2; step > 1e-4; step /= 2) {
    for (const log of [bestLog - step, bestLog + step]) {
      const candidate = absoluteAt(readings, staticM, Math.exp(log))
      if (candidate && candidate.loss < best.loss) {
        best = candidate
        bestLog = log
      }
    }
  }
  return best
}

/** For one T0 the curve is a straight line in exp(−t/T0): absolute deviations by reweighting. */
function absoluteAt(
  readings: readonly LevelReading[],
  staticM: number | null,
  timeConstantS: number,
): Start | null {
  const decay = readings.map((r) => Math.exp(-r.elapsedS / timeConstantS))
  let weights = readings.map(() => 1)
  let best: Start | null = null
  for (let round = 0; round < 8; round++) {
    const line = weightedLine(readings, decay, weights, staticM)
    if (!line) return best
    const residuals = readings.map((r, i) => r.levelM - line.staticM - line.startM * (decay[i] ?? 0))
    const loss = residuals.reduce((sum, r) => sum + Math.abs(r), 0)
    if (best && loss > best.loss * 0.9995) break
    best = { ...line, timeConstantS, residuals, loss }
    weights = residuals.map((r) => 1 / Math.max(Math.abs(r), READING_ERROR_M))
  }
  return best
}

/** Written out in sums, since the grid asks for it some hundreds of times. Null when decay does not vary. */
function weightedLine(
  readings: readonly LevelReading[],
  decay: readonly number[],
  weights: readonly number[],
  staticM: number | null,
): { staticM: number; startM: number } | null {
  let w = 0
  let wx = 0
  let wy = 0
  let wxx = 0
  let wxy = 0
  for (let i = 0; i < readings.length; i++) {
    const weight = weights[i] ?? 0
    const x = decay[i] ?? 0
    const y = (readings[i]?.levelM ?? 0) - (staticM ?? 0)
    w += weight
    wx += weight * x
    wy += weight * y
    wxx += weight * x * x
    wxy += weight * x * y
  }
  if (staticM !== null) return wxx > 0 ? { staticM, startM: wxy / wxx } : null
  const spread = w * wxx - wx * wx
  if (!(spread > 1e-12 * w * wxx)) return null
  const startM = (w * wxy - wx * wy) / spread
  return { staticM: (wy - startM * wx) / w, startM }
}

/** 1.4826 × the median absolute residual, with the freedom the curve took given back. */
function robustScale(residuals: readonly number[], unknowns: number): number {
  const sizes = residuals.map(Math.abs).sort((a, b) => a - b)
  // The curve passes exactly through about as many readings as it has unknowns: those say nothing of the noise.
  const rest = sizes.slice(Math.min(unknowns, sizes.length - 1))
  const middle = rest[Math.floor((rest.length - 1) / 2)] ?? 0
  return Math.max(1.4826 * middle, READING_ERROR_M)
}

function bisquare(
  readings: readonly LevelReading[],
  staticM: number | null,
  start: Curve,
  scale: number,
): Exponential | null {
  let curve: Curve = { ...start }
  let weights = weigh(readings, curve, scale)
  let inverse: number[][] = []
  for (let round = 0; round < 40; round++) {
    const stepped = gaussNewton(readings, curve, weights, staticM)
    if (!stepped) return null
    inverse = stepped.inverse
    const moved = Math.abs(Math.log(stepped.curve.timeConstantS / curve.timeConstantS))
    curve = stepped.curve
    weights = weigh(readings, curve, scale)
    if (moved < 1e-9) break
  }
  const total = weights.reduce((sum, w) => sum + w, 0)
  const unknowns = staticM === null ? 3 : 2
  const freedom = total - unknowns
  if (!(freedom > 0.5)) return null
  const squares = readings.reduce((sum, r, i) => sum + (weights[i] ?? 0) * residualOf(r, curve) ** 2, 0)
  const residualM = Math.max(Math.sqrt(squares / freedom), READING_ERROR_M)
  const variance = weightedVariance(readings, curve, scale, weights, unknowns)
  const errorOf = (at: number) => Math.sqrt(variance * Math.max(inverse[at]?.[at] ?? 0, 0))
  return {
    ...curve,
    residualM,
    weights,
    logTimeError: errorOf(1),
    staticErrorM: staticM === null ? errorOf(2) : 0,
    freedom,
  }
}

/**
 * What the inverse of JᵀWJ is to be multiplied with: Huber's variance of an M-estimate (Huber 1981, Robust Statistics,
 * ch. 7), since weights below one make plain least squares' variance too small.
 */
function weightedVariance(
  readings: readonly LevelReading[],
  curve: Curve,
  scale: number,
  weights: readonly number[],
  unknowns: number,
): number {
  const n = readings.length
  let squares = 0
  let slopes = 0
  let slopeSquares = 0
  readings.forEach((r, i) => {
    const residual = residualOf(r, curve)
    squares += ((weights[i] ?? 0) * residual) ** 2
    const u = (residual / (BISQUARE * scale)) ** 2
    const slope = u >= 1 ? 0 : (1 - u) * (1 - 5 * u)
    slopes += slope
    slopeSquares += slope * slope
  })
  const meanSlope = Math.max(slopes / n, 0.2)
  const small = 1 + (unknowns / n) * (slopeSquares / n / meanSlope ** 2 - 1)
  const meanWeight = weights.reduce((sum, w) => sum + w, 0) / n
  const floor = READING_ERROR_M ** 2
  return Math.max(floor, (small * small * meanWeight * squares) / (n - unknowns) / meanSlope ** 2)
}

const residualOf = (r: LevelReading, curve: Curve): number =>
  r.levelM - curve.staticM - curve.startM * Math.exp(-r.elapsedS / curve.timeConstantS)

function weigh(readings: readonly LevelReading[], curve: Curve, scale: number): number[] {
  return readings.map((r) => {
    const u = residualOf(r, curve) / (BISQUARE * scale)
    return Math.abs(u) >= 1 ? 0 : (1 - u * u) ** 2
  })
}

/** One step in (start, ln T0, static); the step in ln T0 is held to a factor of about 1.6 so that it cannot run off. */
function gaussNewton(
  readings: readonly LevelReading[],
  curve: Curve,
  weights: readonly number[],
  staticM: number | null,
): { curve: Curve; inverse: number[][] } | null {
  const rows = readings.map((r) => {
    const ratio = r.elapsedS / curve.timeConstantS
    const decay = Math.exp(-ratio)
    const row = [decay, curve.startM * ratio * decay]
    return staticM === null ? [...row, 1] : row
  })
  const solved = weightedLeastSquares(
    rows,
    readings.map((r) => residualOf(r, curve)),
    weights,
  )
  if (solved.kind === 'singular') return null
  const [start = 0, logTime = 0, level = 0] = solved.coefficients
  const held = Math.max(-0.5, Math.min(0.5, logTime))
  const share = logTime === 0 ? 1 : held / logTime
  return {
    curve: {
      startM: curve.startM + share * start,
      timeConstantS: curve.timeConstantS * Math.exp(held),
      staticM: curve.staticM + share * level,
    },
    inverse: solved.inverse,
  }
}
