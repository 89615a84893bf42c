import { weightedLeastSquares } from '@/lib/domain/stats/least-squares'
import { straightLine } from './log-line'
import { type Refused, refuse } from './result'
import type { Step } from './step'

export type EdenHazel = {
  kind: 'fit'
  transmissivityM2PerS: number
  /** Linear part of s/Q at the unit of time of the fit (one second), s/m²: it grows with time, so compare it never. */
  aSPerM2: number
  cS2PerM5: number
  residualM: number
  readings: number
}

/**
 * Eden & Hazel's step test: every reading of every step at once, with the drift of all earlier steps in the model.
 *
 *   s = b · H + A_n,   H = Σ ΔQ_i log10(t − t_i),   A_n / Q_n = a + C Q_n,   T = 2.303 / (4π b)
 *
 * Shape   readings in metres of drawdown, steps in order of time, at least three steps of two readings each.
 * Units   seconds, metres, m³/s; T in m²/s, C in s²/m⁵.
 * Answer  refused under three steps with readings, or where the drift comes out negative.
 * Source  Eden & Hazel 1973, Inst. Eng. Australia, Civ. Eng. Trans. 5-10; Kruseman & de Ridder 1994, ch. 14.
 */
export function edenHazel(
  readings: readonly { elapsedS: number; drawdownM: number }[],
  steps: readonly Step[],
): EdenHazel | Refused {
  const placed = readings.flatMap((r) => {
    const at = steps.findIndex((s) => r.elapsedS <= s.endS)
    return at < 0 || r.elapsedS <= 0 ? [] : [{ ...r, at, history: pumpingHistory(steps, at, r.elapsedS) }]
  })
  const counts = steps.map((_, i) => placed.filter((p) => p.at === i).length)
  const usable = counts.filter((c) => c >= 2).length
  if (usable < 3 || usable < steps.length) {
    return refuse(
      'too-few',
      `${usable} of ${steps.length} steps have two readings or more: at least three steps, each read often, are needed.`,
    )
  }
  const rows = placed.map((p) => [p.history, ...steps.map((_, i) => (i === p.at ? 1 : 0))])
  const values = placed.map((p) => p.drawdownM)
  const solved = weightedLeastSquares(
    rows,
    values,
    values.map(() => 1),
  )
  const b = solved.kind === 'solved' ? (solved.coefficients[0] ?? 0) : 0
  if (solved.kind === 'singular' || !(b > 0)) {
    return refuse(
      'poor-fit',
      'The level does not drift down within the steps: check the times at which the rate was changed.',
    )
  }
  const offsets = solved.coefficients.slice(1)
  const line = straightLine(steps.map((s, i) => ({ x: s.flowM3PerS, y: (offsets[i] ?? 0) / s.flowM3PerS })))
  if (line.kind === 'too-few') return refuse('too-few', 'At least three different rates are needed.')
  const squares = rows.reduce((sum, row, i) => {
    const fitted = row.reduce((all, x, k) => all + x * (solved.coefficients[k] ?? 0), 0)
    return sum + ((values[i] ?? 0) - fitted) ** 2
  }, 0)
  return {
    kind: 'fit',
    transmissivityM2PerS: Math.LN10 / (4 * Math.PI * b),
    aSPerM2: line.intercept,
    cS2PerM5: line.slope,
    residualM: Math.sqrt(squares / Math.max(1, placed.length - steps.length - 1)),
    readings: placed.length,
  }
}

/** H = Σ ΔQ_i log10(t − t_i) over this step and those before it. */
function pumpingHistory(steps: readonly Step[], at: number, elapsedS: number): number {
  let sum = 0
  for (let i = 0; i <= at; i++) {
    const change = (steps[i]?.flowM3PerS ?? 0) - (steps[i - 1]?.flowM3PerS ?? 0)
    sum += change * Math.log10(elapsedS - (steps[i - 1]?.endS ?? 0))
  }
  return sum
}
