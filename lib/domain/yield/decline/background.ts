import { dot, type Vector } from './vector'

/** One linear effect that is not in question (a level, a season), with what is known of its size beforehand. */
export type Term = { values: Vector; mean: number; sd: number }

/** Turns a series into one with independent noise of unit size. `logScale` is the log of its determinant. */
export type Whitener = { into: (values: Vector, out: Vector) => Vector; logScale: number }

/** A series with its background terms, ready to be asked what one more curve would explain. */
export type Background = {
  /** Number of readings. */
  n: number
  /** What is left of the series, squared and summed, in units of its noise. */
  rest: number
  /** Log of how well the background explains the series, but for the part that follows from `rest`. */
  logFit: number
  /** How large a curve is beside the background, and how far the series pulls along it (both in noise units). */
  measure: (curve: Vector) => { size: number; pull: number }
  /** The same with something known taken off the series first. */
  measureLess: (curve: Vector, known: Vector) => { size: number; pull: number; rest: number }
  /** The sizes of the terms, and their variances, once `known` is taken off the series. */
  termsLess: (known: Vector) => { sizes: number[]; variances: number[] }
}

/**
 * Linear regression on a few terms with Gaussian prior knowledge, done once so that many candidate curves can be
 * tried against it in closed form (each costs n × number of terms).
 *
 * Shape   `series` and all term values have one length n; `whiten` sets the noise to one.
 * Source  Bayesian linear regression with known noise: Gelman et al., Bayesian Data Analysis, ch. 14 (from memory).
 */
export function background(series: Vector, terms: readonly Term[], whiten: Whitener): Background {
  const n = series.length
  const columns = terms.map((term) => whiten.into(term.values, new Float64Array(n)))
  const target = whiten.into(lessPriorMean(series, terms), new Float64Array(n))
  const factor = cholesky(columns, terms)
  const targetAlong = along(factor, columns, target, new Float64Array(terms.length))
  const rest = dot(target, target) - dot(targetAlong, targetAlong)
  const curveRoom = new Float64Array(n)
  const lessRoom = new Float64Array(n)
  const curveAlong = new Float64Array(terms.length)
  const lessAlong = new Float64Array(terms.length)
  const takeOff = (known: Vector) => {
    whiten.into(known, lessRoom)
    for (let i = 0; i < n; i++) lessRoom[i] = (target[i] ?? 0) - (lessRoom[i] ?? 0)
    along(factor, columns, lessRoom, lessAlong)
  }
  let logFit = whiten.logScale
  terms.forEach((term, i) => {
    logFit -= Math.log((factor[i]?.[i] ?? 1) * term.sd)
  })
  return {
    n,
    rest,
    logFit,
    measure: (curve) => {
      const g = whiten.into(curve, curveRoom)
      along(factor, columns, g, curveAlong)
      return {
        size: dot(g, g) - dot(curveAlong, curveAlong),
        pull: dot(g, target) - dot(curveAlong, targetAlong),
      }
    },
    measureLess: (curve, known) => {
      const g = whiten.into(curve, curveRoom)
      along(factor, columns, g, curveAlong)
      takeOff(known)
      return {
        size: dot(g, g) - dot(curveAlong, curveAlong),
        pull: dot(g, lessRoom) - dot(curveAlong, lessAlong),
        rest: dot(lessRoom, lessRoom) - dot(lessAlong, lessAlong),
      }
    },
    termsLess: (known) => {
      takeOff(known)
      return {
        sizes: backward(factor, lessAlong).map((size, i) => size + (terms[i]?.mean ?? 0)),
        variances: inverseDiagonal(factor),
      }
    },
  }
}

function lessPriorMean(series: Vector, terms: readonly Term[]): Vector {
  const out = series.slice()
  for (const term of terms) {
    if (term.mean === 0) continue
    for (let i = 0; i < out.length; i++) out[i] = (out[i] ?? 0) - term.mean * (term.values[i] ?? 0)
  }
  return out
}

/** The part of a vector that the terms can explain, in the coordinates of the factor. */
function along(factor: readonly Vector[], columns: readonly Vector[], v: Vector, out: Vector): Vector {
  for (let j = 0; j < columns.length; j++) {
    const column = columns[j]
    const row = factor[j]
    if (!column || !row) continue
    let sum = dot(column, v)
    for (let k = 0; k < j; k++) sum -= (row[k] ?? 0) * (out[k] ?? 0)
    out[j] = sum / (row[j] ?? 1)
  }
  return out
}

/** Independent readings, each with its own noise (standard deviations `sd`). */
export function independent(sd: Vector): Whitener {
  let logScale = 0
  for (const value of sd) logScale -= Math.log(value)
  const scale = sd.map((value) => 1 / value)
  return {
    logScale,
    into: (values, out) => {
      for (let i = 0; i < out.length; i++) out[i] = (values[i] ?? 0) * (scale[i] ?? 1)
      return out
    },
  }
}

/** Readings whose noise (standard deviation `sd`) has a memory: correlation exp(-gap / memoryYears) in time. */
export function withMemory(years: Vector, sd: number, memoryYears: number, freshSd: number): Whitener {
  const n = years.length
  const carry = new Float64Array(n)
  const scale = new Float64Array(n)
  let logScale = 0
  for (let i = 0; i < n; i++) {
    const gap = i === 0 ? Number.POSITIVE_INFINITY : (years[i] ?? 0) - (years[i - 1] ?? 0)
    carry[i] = Math.exp(-gap / memoryYears)
    scale[i] = 1 / Math.sqrt(sd * sd * (1 - (carry[i] ?? 0) ** 2) + freshSd * freshSd)
    logScale += Math.log(scale[i] ?? 1)
  }
  return {
    logScale,
    into: (values, out) => {
      let before = 0
      for (let i = 0; i < n; i++) {
        const value = values[i] ?? 0
        out[i] = (value - (carry[i] ?? 0) * before) * (scale[i] ?? 1)
        before = value
      }
      return out
    },
  }
}

/** Lower triangle L with L L' = columns' columns + prior. Throws RangeError where that is not positive. */
function cholesky(columns: readonly Vector[], terms: readonly Term[]): Vector[] {
  const lower: Vector[] = []
  columns.forEach((column, i) => {
    const row = new Float64Array(columns.length)
    lower.forEach((other, j) => {
      let sum = dot(column, columns[j] ?? column)
      for (let k = 0; k < j; k++) sum -= (row[k] ?? 0) * (other[k] ?? 0)
      row[j] = sum / (other[j] ?? 1)
    })
    let own = dot(column, column) + (terms[i]?.sd ?? 1) ** -2
    for (let k = 0; k < i; k++) own -= (row[k] ?? 0) ** 2
    if (!(own > 0)) throw new RangeError('terms are not independent and have no prior')
    row[i] = Math.sqrt(own)
    lower.push(row)
  })
  return lower
}

function backward(lower: readonly Vector[], right: Vector): number[] {
  const n = right.length
  const out = new Array<number>(n).fill(0)
  for (let i = n - 1; i >= 0; i--) {
    let sum = right[i] ?? 0
    for (let k = i + 1; k < n; k++) sum -= (lower[k]?.[i] ?? 0) * (out[k] ?? 0)
    out[i] = sum / (lower[i]?.[i] ?? 1)
  }
  return out
}

function inverseDiagonal(lower: readonly Vector[]): number[] {
  return lower.map((_, column) => {
    let square = 0
    const solved = new Float64Array(lower.length)
    lower.forEach((row, i) => {
      let sum = i === column ? 1 : 0
      for (let k = 0; k < i; k++) sum -= (row[k] ?? 0) * (solved[k] ?? 0)
      const value = sum / (row[i] ?? 1)
      solved[i] = value
      square += value * value
    })
    return square
  })
}
