/** How a pump answers more head: a centrifugal one gives less, a displacement one (diaphragm, piston) hardly. */
export type PumpType = 'centrifugal' | 'displacement'

export type CurvePoint = { flowM3PerS: number; headM: number }

/** H = shut-off head − k Q², at the voltage at which its points were taken. `assumed` where only one point is known. */
export type PumpCurve = { shutOffM: number; perFlow2: number; assumed: boolean }

/** Head at no flow over head at the working point, where nothing better is known: common practice, no published source. */
const SHUT_OFF_OVER_WORKING = 1.33

/**
 * A parabola through the points of a pump's sheet, or through its one working point with a usual shut-off head.
 *
 * Shape   points in any order; the parabola is least squares of head on flow squared.
 * Answer  null without a point, or where head does not fall with flow (the points are of no centrifugal pump).
 * Throws  RangeError for a point that is not finite, or not above zero in head.
 */
export function pumpCurve(points: readonly CurvePoint[]): PumpCurve | null {
  for (const { flowM3PerS, headM } of points) {
    if (!(flowM3PerS >= 0 && Number.isFinite(flowM3PerS)) || !(headM > 0 && Number.isFinite(headM))) {
      throw new RangeError(`pump point ${flowM3PerS} m³/s at ${headM} m`)
    }
  }
  const flows = new Set(points.map((p) => p.flowM3PerS))
  const [first] = points
  if (!first) return null
  if (flows.size === 1) return first.flowM3PerS > 0 ? usualCurve(first) : null
  const xs = points.map((p) => p.flowM3PerS ** 2)
  const mx = xs.reduce((sum, x) => sum + x, 0) / xs.length
  const my = points.reduce((sum, p) => sum + p.headM, 0) / points.length
  const top = points.reduce((sum, p, i) => sum + ((xs[i] ?? 0) - mx) * (p.headM - my), 0)
  const slope = top / xs.reduce((sum, x) => sum + (x - mx) ** 2, 0)
  return slope < 0 ? { shutOffM: my - slope * mx, perFlow2: -slope, assumed: false } : null
}

function usualCurve({ flowM3PerS, headM }: CurvePoint): PumpCurve {
  const shutOffM = SHUT_OFF_OVER_WORKING * headM
  return { shutOffM, perFlow2: (shutOffM - headM) / flowM3PerS ** 2, assumed: true }
}

/**
 * Flow in m³/s that a curve gives at a head and a share of its speed: 0 above the head at which it stalls.
 * By the affinity laws the shut-off head goes with the square of speed, and the curve keeps its fall.
 */
export function flowAtHead(curve: PumpCurve, headM: number, speedRatio = 1): number {
  if (!(speedRatio > 0)) throw new RangeError(`speed ratio ${speedRatio} is not above zero`)
  return Math.sqrt(Math.max(0, (curve.shutOffM * speedRatio ** 2 - headM) / curve.perFlow2))
}
