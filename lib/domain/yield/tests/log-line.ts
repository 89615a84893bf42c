import { weightedLeastSquares } from '@/lib/domain/stats/least-squares'

export type Line = {
  kind: 'line'
  intercept: number
  slope: number
  slopeError: number
  residual: number
  points: number
}
export type NoLine = { kind: 'too-few'; have: number; need: number }

/**
 * Ordinary least-squares line y = intercept + slope × x, with the standard error of the slope.
 * Answer  'too-few' under three points at different x: two points fit any line and say nothing of its error.
 */
export function straightLine(points: readonly { x: number; y: number }[]): Line | NoLine {
  const have = new Set(points.map((p) => p.x)).size
  if (have < 3) return { kind: 'too-few', have, need: 3 }
  const solved = weightedLeastSquares(
    points.map((p) => [1, p.x]),
    points.map((p) => p.y),
    points.map(() => 1),
  )
  if (solved.kind === 'singular') return { kind: 'too-few', have, need: 3 }
  const [intercept = 0, slope = 0] = solved.coefficients
  const squares = points.reduce((sum, p) => sum + (p.y - intercept - slope * p.x) ** 2, 0)
  const residual = Math.sqrt(squares / (points.length - 2))
  const slopeError = residual * Math.sqrt(solved.inverse[1]?.[1] ?? 0)
  return { kind: 'line', intercept, slope, slopeError, residual, points: points.length }
}

export type WindowedConstant =
  | { kind: 'time-constant'; timeConstantS: number; logError: number; points: number }
  | NoLine
  | { kind: 'not-rising' }

/**
 * Time constant from the straight line of ln(s/s0) on time inside a window of s/s0, the reading of a recovery that
 * Hvorslev (1951, US Army WES Bull. 36) drew by hand.
 *
 * Why a window: the constant drifts inside one recovery (aquifer storage, thickness), so two tests compare only over
 * the same part of the way back.
 * Units   seconds and metres; shares of the starting drawdown, for instance { from: 1, to: 0.5 }.
 */
export function timeConstantInWindow(
  drawdowns: readonly { elapsedS: number; drawdownM: number }[],
  startM: number,
  window: { from: number; to: number },
): WindowedConstant {
  const inside = drawdowns.filter(({ drawdownM }) => {
    const share = drawdownM / startM
    return share > 0 && share <= window.from && share >= window.to
  })
  const line = straightLine(inside.map((d) => ({ x: d.elapsedS, y: Math.log(d.drawdownM / startM) })))
  if (line.kind === 'too-few') return line
  if (!(line.slope < 0)) return { kind: 'not-rising' }
  return {
    kind: 'time-constant',
    timeConstantS: -1 / line.slope,
    logError: line.slopeError / -line.slope,
    points: line.points,
  }
}
