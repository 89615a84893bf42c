import { weightedLeastSquares } from './least-squares'
import { median } from './quantile'
import { at, requireFinite, type TooFew } from './shape'

/** Tuning for 95 % efficiency on normal errors (Huber 1964; Beaton & Tukey 1974). */
const HUBER = 1.345
const BISQUARE = 4.685
const ROUNDS_MAX = 500

export type RobustRegression = {
  kind: 'regression'
  coefficients: number[]
  /** Of the coefficients; df degrees of freedom. */
  covariance: number[][]
  df: number
  /** Robust standard deviation of the residuals: their median size / 0.6745. */
  scale: number
  /** 1 for a value taken in full, 0 for one set aside. */
  weights: number[]
  residuals: number[]
}

/** Why there is no regression: columns that say the same, or more than half the values exactly on the fit. */
export type NoRegression =
  | TooFew
  | { kind: 'degenerate'; reason: 'columns-dependent' }
  | { kind: 'no-scatter'; coefficients: number[] }
  | { kind: 'unsettled'; rounds: number }

/**
 * Linear regression that a few wild values cannot pull away: Tukey's bisquare, started from Huber's.
 *
 * Why     well readings come with blunders (a digit slipped, gallons for litres) that least squares obeys
 *         and Huber's weights only soften; the bisquare sets them aside. Huber's answer is unique, so
 *         starting there makes the bisquare's one start, one answer. A wild value of an outside variable
 *         (leverage) is not guarded against: check those on entry.
 * Shape   `rows[i]` holds the outside variables of value i; put a column of 1 for an intercept.
 * Answer  'too-few' under twice as many values as columns, plus one. See NoRegression for the others.
 * Throws  RangeError on lists of unequal length or a number that is not finite.
 * Source  Huber 1981, Robust Statistics, ch. 7, covariance (6.5) with his correction; Beaton & Tukey 1974.
 */
export function robustRegression(
  rows: readonly (readonly number[])[],
  values: readonly number[],
): RobustRegression | NoRegression {
  requireFinite('the values', values)
  for (const row of rows) requireFinite('a row', row)
  const width = rows[0]?.length ?? 0
  if (rows.some((row) => row.length !== width)) throw new RangeError('rows differ in length')
  const need = 2 * width + 1
  if (values.length < need) return { kind: 'too-few', have: values.length, need }
  const first = weightedLeastSquares(
    rows,
    values,
    values.map(() => 1),
  )
  if (first.kind === 'singular') return { kind: 'degenerate', reason: 'columns-dependent' }
  const huber = settle(rows, values, first.coefficients, huberWeight)
  if (huber.kind !== 'settled') return huber
  const bisquare = settle(rows, values, huber.coefficients, bisquareWeight)
  if (bisquare.kind !== 'settled') return bisquare
  return withCovariance(values.length, bisquare, first.inverse)
}

type Settled = { kind: 'settled'; coefficients: number[]; residuals: number[]; scale: number }

/** Weighted least squares again and again, until the fit no longer moves. */
function settle(
  rows: readonly (readonly number[])[],
  values: readonly number[],
  start: number[],
  weight: (u: number) => number,
): Settled | NoRegression {
  const size = values.reduce((most, v) => Math.max(most, Math.abs(v)), 0)
  let coefficients = start
  let residuals = residualsOf(rows, values, coefficients)
  for (let round = 0; round < ROUNDS_MAX; round++) {
    const scale = scaleOf(residuals)
    if (scale <= 1e-12 * size) return { kind: 'no-scatter', coefficients }
    const next = weightedLeastSquares(
      rows,
      values,
      residuals.map((r) => weight(r / scale)),
    )
    if (next.kind === 'singular') return { kind: 'degenerate', reason: 'columns-dependent' }
    const moved = residualsOf(rows, values, next.coefficients)
    const step = Math.hypot(...moved.map((r, i) => r - at(residuals, i)))
    coefficients = next.coefficients
    residuals = moved
    if (step <= 1e-10 * Math.hypot(...residuals)) {
      return { kind: 'settled', coefficients, residuals, scale: scaleOf(residuals) }
    }
  }
  return { kind: 'unsettled', rounds: ROUNDS_MAX }
}

function withCovariance(
  n: number,
  { coefficients, residuals, scale }: Settled,
  inverse: readonly (readonly number[])[],
): RobustRegression | NoRegression {
  const df = n - coefficients.length
  const us = residuals.map((r) => r / scale)
  const slopes = us.map(bisquareSlope)
  const mean = slopes.reduce((sum, d) => sum + d, 0) / n
  if (!(mean > 0)) return { kind: 'unsettled', rounds: 0 }
  const spread = slopes.reduce((sum, d) => sum + (d - mean) ** 2, 0) / (n - 1)
  const correction = 1 + (coefficients.length * spread) / (n * mean ** 2)
  const power = us.reduce((sum, u) => sum + (u * bisquareWeight(u)) ** 2, 0) / df
  const variance = (power * scale ** 2 * correction ** 2) / mean ** 2
  return {
    kind: 'regression',
    coefficients,
    covariance: inverse.map((line) => line.map((v) => v * variance)),
    df,
    scale,
    weights: us.map(bisquareWeight),
    residuals,
  }
}

function residualsOf(
  rows: readonly (readonly number[])[],
  values: readonly number[],
  coefficients: readonly number[],
): number[] {
  return rows.map((row, i) => at(values, i) - row.reduce((sum, v, k) => sum + v * at(coefficients, k), 0))
}

const scaleOf = (residuals: readonly number[]) => median(residuals.map(Math.abs)) / 0.6745

const huberWeight = (u: number) => Math.min(1, HUBER / Math.abs(u))

const bisquareWeight = (u: number) => (Math.abs(u) < BISQUARE ? (1 - (u / BISQUARE) ** 2) ** 2 : 0)

/** Derivative of u times its bisquare weight. */
function bisquareSlope(u: number): number {
  const share = (u / BISQUARE) ** 2
  return share < 1 ? (1 - share) * (1 - 5 * share) : 0
}
