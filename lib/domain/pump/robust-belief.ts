import { normalUpper, weightedLeastSquares } from '@/lib/domain/stats'

/** What is believed of the coefficients of a line, given readings that may be off. */
export type RobustBelief = {
  coefficients: number[]
  /** Deviation of single readings about the line. */
  scatter: number
  /** Mean and deviation of the line itself at a row. */
  at: (row: readonly number[]) => { mean: number; deviation: number }
  /** Chance that a coefficient is below zero. */
  chanceBelowZero: (coefficient: number) => number
}

/** Beyond so many scatters a reading pulls no harder. */
const FAR = 2
const ROUNDS = 4

/**
 * A line through readings, held to what is known beforehand of its coefficients; far readings lose weight (Huber 1964),
 * and the scatter is settled with the fit, from a start that counts as so many readings.
 *
 * Shape   one row of factors a reading; `beforehand` one mean and deviation a coefficient, so that few readings, or none,
 *         give a wide belief and never a singular one.
 * Throws  RangeError where rows and values differ in number.
 */
export function robustBelief(
  rows: readonly (readonly number[])[],
  values: readonly number[],
  beforehand: readonly { mean: number; deviation: number }[],
  usual: { scatter: number; readings: number },
): RobustBelief {
  if (rows.length !== values.length) throw new RangeError(`${rows.length} rows, ${values.length} values`)
  const unit = beforehand.map((_, j) => beforehand.map((_, k): number => (j === k ? 1 : 0)))
  let scatter = usual.scatter
  let weights = rows.map(() => 1)
  let [coefficients, covariance] = [beforehand.map(({ mean }) => mean), unit]
  for (let round = 0; round < ROUNDS; round++) {
    const solved = weightedLeastSquares(
      [...rows, ...unit].map((row) => [...row]),
      [...values, ...beforehand.map(({ mean }) => mean)],
      [...weights.map((weight) => weight / scatter ** 2), ...beforehand.map((b) => 1 / b.deviation ** 2)],
    )
    if (solved.kind === 'singular') break
    coefficients = solved.coefficients
    covariance = solved.inverse
    const off = rows.map((row, i) => Math.abs((values[i] ?? 0) - dot(row, coefficients)))
    const rest = off.reduce((sum, one) => sum + Math.min(one, FAR * scatter) ** 2, 0)
    scatter = Math.sqrt((usual.readings * usual.scatter ** 2 + rest) / (usual.readings + rows.length))
    weights = off.map((one) => Math.min(1, (FAR * scatter) / Math.max(one, 1e-12)))
  }
  return {
    coefficients,
    scatter,
    at: (row) => ({
      mean: dot(row, coefficients),
      deviation: Math.sqrt(Math.max(0, quadratic(row, covariance))),
    }),
    chanceBelowZero: (k) =>
      normalUpper((coefficients[k] ?? 0) / Math.sqrt(Math.max(1e-18, covariance[k]?.[k] ?? 0))),
  }
}

const dot = (row: readonly number[], by: readonly number[]): number =>
  row.reduce((sum, x, k) => sum + x * (by[k] ?? 0), 0)

const quadratic = (row: readonly number[], matrix: readonly (readonly number[])[]): number =>
  row.reduce((sum, x, j) => sum + x * dot(row, matrix[j] ?? []), 0)
