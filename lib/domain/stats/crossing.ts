import { type NoRegression, robustRegression } from './robust-regression'
import { at, type Point, requireFinite, requireFinitePoints, requireShare } from './shape'
import { tQuantile } from './special'

/** A line has two coefficients: twice as many values, plus one, as `robustRegression` asks. */
const LINE_N_MIN = 5

/** A straight line through time with its uncertainty, told at `centre`, where level and slope are independent. */
export type LineWithError = {
  kind: 'line'
  centre: number
  level: number
  slope: number
  /** Variances of the level at the centre and of the slope. */
  varLevel: number
  varSlope: number
  /** Standard deviation of single readings about the line. */
  scatter: number
  df: number
}

/** When a line meets a threshold, or why no date can be told. */
export type Crossing =
  | { kind: 'crossing'; at: number; earliest: number; latest: number; level: number }
  | { kind: 'passed' }
  | { kind: 'not-established'; reason: 'slope-unclear' | 'moving-away' }

/** `from` is the last time known; `way` is how the threshold is met: falling to it or rising to it. */
export type CrossingQuestion = {
  from: number
  way: 'falling' | 'rising'
  level?: number
  of?: 'line' | 'reading'
}

/**
 * Robust straight line of value against time, with what `crossingTime` needs.
 * Shape, answers and throws as `robustRegression`; points in any order.
 */
export function robustLine(points: readonly Point[]): LineWithError | NoRegression {
  requireFinitePoints(points)
  if (points.length < LINE_N_MIN) return { kind: 'too-few', have: points.length, need: LINE_N_MIN }
  const centre = points.reduce((sum, point) => sum + point.time, 0) / points.length
  const fit = robustRegression(
    points.map((point) => [1, point.time - centre]),
    points.map((point) => point.value),
  )
  if (fit.kind !== 'regression') return fit
  return {
    kind: 'line',
    centre,
    level: at(fit.coefficients, 0),
    slope: at(fit.coefficients, 1),
    varLevel: at(fit.covariance[0] ?? [], 0),
    varSlope: at(fit.covariance[1] ?? [], 1),
    scatter: fit.scale,
    df: fit.df,
  }
}

/**
 * When a line will meet a threshold, with an interval: all times at which the line may be there.
 *
 * Shape   `level` is the confidence of the interval (0.8); `of` says what is to cross: the 'line' (the
 *         true level) or a single 'reading' (scatter added).
 * Answer  'passed' where the line stands beyond the threshold at `from`; 'slope-unclear' where the slope's
 *         own interval holds 0, as then no time can be ruled out; 'moving-away' where it clearly heads
 *         the other way.
 *         `earliest` is never before `from`.
 * Throws  RangeError on a number that is not finite, a level outside 0..1, variances below 0.
 * Source  Fieller 1954, J. R. Stat. Soc. B 16:175-185 (inverse prediction).
 */
export function crossingTime(
  line: LineWithError,
  threshold: number,
  { from, way, level = 0.8, of = 'line' }: CrossingQuestion,
): Crossing {
  requireShare('the confidence level', level)
  const { centre, slope, varLevel, varSlope, scatter } = line
  requireFinite('the line', [threshold, from, centre, line.level, slope, varLevel, varSlope, scatter])
  if (varLevel < 0 || varSlope < 0) throw new RangeError('a variance is never negative')
  const t = tQuantile((1 + level) / 2, line.df)
  const gap = line.level - threshold
  const now = line.level + slope * (from - centre)
  if (way === 'falling' ? now <= threshold : now >= threshold) return { kind: 'passed' }
  const a = slope ** 2 - t ** 2 * varSlope
  if (!(a > 0)) return { kind: 'not-established', reason: 'slope-unclear' }
  if (way === 'falling' ? slope > 0 : slope < 0) return { kind: 'not-established', reason: 'moving-away' }
  const c = gap ** 2 - t ** 2 * (varLevel + (of === 'reading' ? scatter ** 2 : 0))
  const b = 2 * slope * gap
  const root = Math.sqrt(Math.max(0, b ** 2 - 4 * a * c))
  const ends = [centre + (-b - root) / (2 * a), centre + (-b + root) / (2 * a)]
  const meets = centre - gap / slope
  return {
    kind: 'crossing',
    at: meets,
    earliest: Math.max(from, Math.min(...ends)),
    latest: Math.max(...ends),
    level,
  }
}
