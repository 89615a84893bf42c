import { describe, expect, test } from 'vitest'
import { freshState, takeIn, wearOn, wearOut } from '@/lib/domain/pump/brush-filter'
import { lifeBelief, OPEN_KINDS } from '@/lib/domain/pump/brush-wear'
import { logMoments } from '@/lib/domain/pump/forecast'
import { emptyState, filter, placeOf, UNEVENNESS2 } from '@/lib/domain/pump/load-filter'
import { openPrior } from '@/lib/domain/pump/load-prior'
import { loadBelief } from '@/lib/domain/pump/loading'
import { pooled, pooledShares } from '@/lib/domain/pump/pooling'
import { simulateBrushes, simulateCartridge } from './wear-sim'

/** Logarithm of the determinant of a matrix, and its inverse times a column, by elimination. */
function solve(matrix: number[][], columns: number[][]): { logDet: number; solved: number[][] } {
  const rows = matrix.map((row, i) => [...row, ...columns.map((column) => column[i] ?? 0)])
  let logDet = 0
  for (const [i, row] of rows.entries()) {
    const pivot = row[i] ?? 0
    logDet += Math.log(pivot)
    for (const [j, other] of rows.entries()) {
      const factor = (other[i] ?? 0) / pivot
      if (j !== i) for (const [k, value] of row.entries()) other[k] = (other[k] ?? 0) - factor * value
    }
    for (const [k, value] of row.entries()) row[k] = value / pivot
  }
  return { logDet, solved: columns.map((_, c) => rows.map((row) => row[rows.length + c] ?? 0)) }
}

const dot = (a: readonly number[], b: readonly number[]) => a.reduce((sum, x, i) => sum + x * (b[i] ?? 0), 0)

describe('the filter of a drifting rate', () => {
  const used = [0, 20, 45, 90, 95, 140]
  const logs = [0.02, 0.2, 0.35, 0.8, 0.7, 1.1]
  const flows = [0, 0.1, -0.2, 0.05, 0, -0.1]
  const variances = [0.01, 0.01, 0.02, 0.01, 5, 0.01]
  const columns = {
    used: Float64Array.from(used),
    logs: Float64Array.from(logs),
    flowLogs: Float64Array.from(flows),
  }

  test.each([0, 0.4, 0.9])(
    'says what generalised least squares says of all readings at once, drift %f',
    (drift) => {
      const place = placeOf(columns, 2, 4, Math.log(150), 0.2)
      const state = emptyState()
      filter(columns, place, Float64Array.from(variances), drift, state)
      // Covariance of an integrated Wiener process (Rasmussen & Williams 2006, eq. 6.28), an open slope and a random walk.
      const at = [...place.at]
      const matrix = at.map((a, i) =>
        at.map((b, j) => {
          const [less, more] = [Math.min(a, b), Math.max(a, b)]
          const lead =
            0.2 ** 2 * a * b + (drift ** 2 * less ** 2 * (3 * more - less)) / 6 + UNEVENNESS2 * less
          return (place.slopes[i] ?? 0) * (place.slopes[j] ?? 0) * lead + (i === j ? (variances[i] ?? 0) : 0)
        }),
      )
      const y = logs.map((log, i) => log - (place.growthLogs[i] ?? 0))
      const ones = y.map(() => 1)
      const { logDet, solved } = solve(matrix, [y, ones, flows])
      const [byY = [], byOne = [], byFlow = []] = solved
      expect(state.logs).toBeCloseTo(logDet, 9)
      expect(state.wyy).toBeCloseTo(dot(y, byY), 8)
      expect(state.wy).toBeCloseTo(dot(ones, byY), 8)
      expect(state.w).toBeCloseTo(dot(ones, byOne), 8)
      expect(state.wyf).toBeCloseTo(dot(y, byFlow), 8)
      expect(state.wff).toBeCloseTo(dot(flows, byFlow), 8)
      expect(state.wf).toBeCloseTo(dot(ones, byFlow), 8)
    },
  )
})

describe('brushes whose wear goes one way', () => {
  test('are followed without error to where the curve meets the minimum', () => {
    const state = freshState(0, 0.3, { mean: 0, deviation: 0.5 })
    // Worn by 0.8 t + 0.2 t²: gone at t = 1.
    for (let i = 1; i <= 6; i++) {
      const t = i / 10
      wearOn(state, 0.1, 0)
      takeIn(state, 0.8 * t + 0.2 * t * t, 1e-3)
    }
    const { left } = wearOut(state, 0)
    expect(Math.abs(0.6 + left - 1)).toBeLessThan(0.03)
    expect(state.trend).toBeGreaterThan(0.2)
  })

  test('are taken to slacken no further than to a fifth of the usual rate, so that an end is found', () => {
    const state = freshState(0, 0.3, { mean: -3, deviation: 0.01 })
    wearOn(state, 0.3, 0)
    const { left, deviation } = wearOut(state, 0)
    expect(left).toBeLessThan(5)
    expect(Number.isFinite(deviation)).toBe(true)
  })
})

describe('the grids', () => {
  test('of cartridges are fine enough: three and four times as fine they say the same within a seventh of the doubt', () => {
    for (let seed = 40; seed < 52; seed++) {
      const { question } = simulateCartridge(seed, 0)
      const zero = question.readings[0]?.volumeM3 ?? 0
      const readings = question.readings.map((r) => ({
        on: r.on,
        used: (r.volumeM3 ?? 0) - zero,
        flowRatio: (r.flowM3PerS ?? 0) / question.referenceFlowM3PerS,
        dropPa: r.dropPa,
      }))
      const asked = { terminalPa: question.terminalPa, flowDoubt: 0, jump: 0 }
      const prior = openPrior(question.terminalPa, 400)
      const trusted = readings.map(() => 1)
      const usual = loadBelief(readings, asked, prior, trusted).limitLog
      const fine = loadBelief(readings, asked, prior, trusted, { scout: 27, near: 18, fine: 28 }).limitLog
      expect(Math.abs(usual.mean - fine.mean)).toBeLessThan(0.15 * fine.deviation)
      expect(Math.abs(Math.log(usual.deviation / fine.deviation))).toBeLessThan(0.15)
    }
  })

  test('of brushes likewise', () => {
    for (let seed = 40; seed < 60; seed++) {
      const { question } = simulateBrushes(seed)
      const readings = question.readings.map((r) => ({
        used: r.hours ?? 0,
        shortestM: Math.min(...r.lengthsM),
      }))
      const prior = { life: { mean: Math.log(3000), deviation: 0.85 }, ...OPEN_KINDS }
      const usual = logMoments(lifeBelief(readings, question, prior).life)
      const fine = logMoments(lifeBelief(readings, question, prior, { scout: 48, fine: 36 }).life)
      expect(Math.abs(usual.mean - fine.mean)).toBeLessThan(0.15 * fine.deviation)
      expect(Math.abs(Math.log(usual.deviation / fine.deviation))).toBeLessThan(0.15)
    }
  })
})

describe('what earlier parts teach', () => {
  test('is nothing without one, and nears their common word with many', () => {
    const open = { mean: 0, deviation: 1 }
    expect(pooled(open, [], 0.2)).toEqual(open)
    const many = Array.from({ length: 30 }, () => ({ mean: 2, deviation: 0.1 }))
    const after = pooled(open, many, 0.2)
    expect(after.mean).toBeGreaterThan(1.95)
    expect(after.deviation).toBeLessThan(0.2)
  })

  test('rules nothing out, and sums to one', () => {
    const shares = pooledShares(
      [0.5, 0.3, 0.2],
      [
        [1, 0, 0],
        [1, 0, 0],
        [1, 0, 0],
      ],
    )
    expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12)
    expect(shares[0]).toBeGreaterThan(0.8)
    expect(Math.min(...shares)).toBeGreaterThan(0.04)
  })
})
