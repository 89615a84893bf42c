export type LeastSquares =
  | {
      kind: 'solved'
      coefficients: number[]
      /** Inverse of the weighted normal matrix: times the error variance it is the covariance. */
      inverse: number[][]
    }
  | { kind: 'singular' }

/**
 * Weighted linear least squares for a handful of coefficients.
 *
 * Shape   `rows[i]` is the design row of observation i, `values[i]` its value, `weights[i]` its weight (0 drops it).
 * Answer  'singular' when the rows do not pin down the coefficients.
 * Throws  RangeError when the lists differ in length: that is our bug, not the user's.
 * Method  normal equations with scaled columns and Gauss-Jordan pivoting; fine for up to about ten coefficients.
 * Cost    n k² + k³.
 */
export function weightedLeastSquares(
  rows: readonly (readonly number[])[],
  values: readonly number[],
  weights: readonly number[],
): LeastSquares {
  if (rows.length !== values.length || rows.length !== weights.length) {
    throw new RangeError(`${rows.length} rows, ${values.length} values, ${weights.length} weights`)
  }
  const width = rows[0]?.length ?? 0
  if (width === 0) return { kind: 'singular' }
  const normal = zeros(width)
  const right = new Array<number>(width).fill(0)
  rows.forEach((row, i) => {
    const weight = weights[i] ?? 0
    if (weight === 0) return
    for (let a = 0; a < width; a++) {
      const wa = weight * (row[a] ?? 0)
      right[a] = (right[a] ?? 0) + wa * (values[i] ?? 0)
      const line = normal[a] ?? []
      for (let b = 0; b < width; b++) line[b] = (line[b] ?? 0) + wa * (row[b] ?? 0)
    }
  })
  const inverse = invertSymmetric(normal)
  if (!inverse) return { kind: 'singular' }
  const coefficients = inverse.map((line) => line.reduce((sum, v, b) => sum + v * (right[b] ?? 0), 0))
  return { kind: 'solved', coefficients, inverse }
}

const zeros = (size: number): number[][] =>
  Array.from({ length: size }, () => new Array<number>(size).fill(0))

/** Inverse of a symmetric positive matrix after scaling it to a unit diagonal; null when it has none. */
function invertSymmetric(matrix: readonly (readonly number[])[]): number[][] | null {
  const size = matrix.length
  const scale = matrix.map((line, i) => Math.sqrt(line[i] ?? 0))
  if (scale.some((s) => !(s > 0))) return null
  const work = matrix.map((line, i) => [
    ...line.map((v, j) => v / ((scale[i] ?? 1) * (scale[j] ?? 1))),
    ...line.map((_, j) => (i === j ? 1 : 0)),
  ])
  for (let column = 0; column < size; column++) {
    if (!eliminate(work, column)) return null
  }
  return work.map((line, i) => line.slice(size).map((v, j) => v / ((scale[i] ?? 1) * (scale[j] ?? 1))))
}

/** One Gauss-Jordan step with row pivoting; false when the column has no usable pivot. */
function eliminate(work: number[][], column: number): boolean {
  let best = column
  for (let i = column; i < work.length; i++) {
    if (Math.abs(work[i]?.[column] ?? 0) > Math.abs(work[best]?.[column] ?? 0)) best = i
  }
  const pivotLine = work[best]
  const here = work[column]
  const pivot = pivotLine?.[column] ?? 0
  if (!pivotLine || !here || Math.abs(pivot) < 1e-11) return false
  work[best] = here
  work[column] = pivotLine.map((v) => v / pivot)
  const unit = work[column] ?? []
  for (let i = 0; i < work.length; i++) {
    const line = work[i]
    const factor = line?.[column] ?? 0
    if (i === column || !line || factor === 0) continue
    work[i] = line.map((v, j) => v - factor * (unit[j] ?? 0))
  }
  return true
}
