import { SHAPES } from './blocking-laws'
import { UNEVENNESS2 } from './load-filter'
import type { LoadCell, LoadData } from './load-grid'
import { DRIFTS } from './load-prior'

/** The course of the drop by one law, through the readings and beyond. */
export type LoadPath = {
  /** Logarithm of the drop expected at a use, and its variance; `flowLog` is that of the flow over the reference. */
  at: (used: number, flowLog: number) => { log: number; variance: number }
  /** For each reading, in order of use, the logarithm of what was read over what the course says. */
  misfits: Float64Array
}

/**
 * The course that one law takes through the readings: its lead over the law as a smooth path that the readings pull
 * (the filter's model, solved for all readings at once: regression on a Gaussian process, Rasmussen & Williams 2006,
 * ch. 2, from memory).
 * Cost    the cube of the number of readings: for charts and for single laws.
 */
export function pathOf(cell: LoadCell, data: LoadData): LoadPath {
  const law = SHAPES[cell.shape]
  const life = Math.exp(cell.gridLog)
  const { columns, prior } = data
  const clean2 = prior.cleanLog.deviation ** 2
  const power2 = prior.power.deviation ** 2
  const at = columns.used.map((used) => used / life)
  const grown = (t: number) => law?.growthLog(cell.end * t) ?? 0
  const slopeAt = (t: number) => cell.end * (law?.slope(cell.end * t, grown(t)) ?? 0)
  const slopes = at.map(slopeAt)
  const shared = (t: number, slope: number, flow: number, j: number): number =>
    slope * (slopes[j] ?? 0) * strayedTogether(cell, t, at[j] ?? 0) +
    clean2 +
    power2 * flow * (columns.flowLogs[j] ?? 0)
  const noise = data.extra.map((extra, i) => (cell.scatter ** 2 + extra) * (data.penalties[i] ?? 1))
  const lower = factor(at.length, (i, j) => {
    const own = shared(at[i] ?? 0, slopes[i] ?? 0, columns.flowLogs[i] ?? 0, j)
    return i === j ? own + (noise[i] ?? 0) : own
  })
  const off = columns.logs.map((log, i) => log - grown(at[i] ?? 0))
  const pull = backward(lower, forward(lower, off))
  const sumOf = (term: (j: number) => number): number => pull.reduce((sum, one, j) => sum + one * term(j), 0)
  const clean = prior.cleanLog.mean + clean2 * sumOf(() => 1)
  const power = prior.power.mean + power2 * sumOf((j) => columns.flowLogs[j] ?? 0)
  return {
    misfits: pull.map((one, i) => one * (noise[i] ?? 0)),
    at: (used, flowLog) => {
      const t = used / life
      const slope = slopeAt(t)
      const lead = sumOf((j) => (slopes[j] ?? 0) * strayedTogether(cell, t, at[j] ?? 0))
      const known = forward(
        lower,
        at.map((_, j) => shared(t, slope, flowLog, j)),
      )
      const open = slope * slope * strayedTogether(cell, t, t) + clean2 + power2 * flowLog * flowLog
      return {
        log: clean + grown(Math.max(0, t + lead)) + power * flowLog,
        variance: Math.max(0, open - known.reduce((sum, one) => sum + one * one, 0)),
      }
    },
  }
}

/** Covariance of the lead at two uses, in lives: a rate that is open, one that wanders, and dirt that comes unevenly. */
function strayedTogether({ slack, drift }: LoadCell, a: number, b: number): number {
  const [less, more] = a < b ? [a, b] : [b, a]
  const wander = (DRIFTS[drift] ?? 0) ** 2
  return slack * slack * a * b + (wander * less * less * (3 * more - less)) / 6 + UNEVENNESS2 * less
}

/** Lower factor of a symmetric positive matrix (Cholesky), row by row. */
function factor(size: number, entry: (i: number, j: number) => number): Float64Array[] {
  const rows: Float64Array[] = []
  for (let i = 0; i < size; i++) {
    const row = new Float64Array(size)
    for (let j = 0; j <= i; j++) {
      const other = j === i ? row : (rows[j] ?? row)
      let rest = entry(i, j)
      for (let k = 0; k < j; k++) rest -= (row[k] ?? 0) * (other[k] ?? 0)
      row[j] = j === i ? Math.sqrt(Math.max(1e-12, rest)) : rest / (other[j] ?? 1)
    }
    rows.push(row)
  }
  return rows
}

function forward(lower: readonly Float64Array[], right: Float64Array): Float64Array {
  const out = new Float64Array(lower.length)
  lower.forEach((row, i) => {
    let rest = right[i] ?? 0
    for (let k = 0; k < i; k++) rest -= (row[k] ?? 0) * (out[k] ?? 0)
    out[i] = rest / (row[i] ?? 1)
  })
  return out
}

function backward(lower: readonly Float64Array[], right: Float64Array): Float64Array {
  const out = new Float64Array(lower.length)
  for (let i = lower.length - 1; i >= 0; i--) {
    let rest = right[i] ?? 0
    for (let k = i + 1; k < lower.length; k++) rest -= (lower[k]?.[i] ?? 0) * (out[k] ?? 0)
    out[i] = rest / (lower[i]?.[i] ?? 1)
  }
  return out
}
