/** The point that three or more tapes agree on best. */
import { chiSquareUpper, weightedLeastSquares } from '@/lib/domain/stats'
import { meet } from './circles'
import type { Covariance } from './ellipse'
import { apartM, type LocalPoint } from './plane'

/** A tie made ready: where its mark stands, its level length, and the standard deviation of both together, m. */
export type Reach = { mark: string; from: LocalPoint; lengthM: number; sigmaM: number }

/** `chiSquare` is the sum of squared misfits over their variances; `p` its chance, null where nothing is left over. */
export type FittedPoint = {
  at: LocalPoint
  covariance: Covariance
  chiSquare: number
  spare: number
  p: number | null
}

const STEPS_MAX = 60
const STILL_M = 1e-9
const SAME_POINT_M = 0.001

/**
 * Every point at which the weighted squares of the misfits are least, the best first: one where the marks surround
 * the well, two where they stand on a line (one on either side of it).
 *
 * Method  Gauss-Newton with halved steps from the meetings of every pair of tapes.
 * Cost    ties² starts of a few steps each; ties are a handful.
 */
export function fitPoints(reaches: readonly Reach[]): FittedPoint[] {
  const found: FittedPoint[] = []
  for (const start of startPoints(reaches)) {
    const fitted = descend(reaches, start)
    if (fitted && !found.some((other) => apartM(other.at, fitted.at) < SAME_POINT_M)) found.push(fitted)
  }
  return found.sort((a, b) => a.chiSquare - b.chiSquare)
}

function startPoints(reaches: readonly Reach[]): LocalPoint[] {
  const starts: LocalPoint[] = []
  reaches.forEach((a, i) => {
    for (const b of reaches.slice(i + 1)) {
      const meeting = meet(a.from, a.lengthM, b.from, b.lengthM)
      if (meeting.kind === 'two') starts.push(meeting.left, meeting.right)
      // A touch off the line: exactly on it nothing pulls to either side.
      else if (meeting.kind !== 'one-mark') starts.push(...eitherSide(meeting.nearest, a.from, b.from))
    }
  })
  return starts
}

function eitherSide(point: LocalPoint, a: LocalPoint, b: LocalPoint): LocalPoint[] {
  const length = apartM(a, b)
  const east = (b.northM - a.northM) / length
  const north = -(b.eastM - a.eastM) / length
  return [0.1, -0.1].map((off) => ({ eastM: point.eastM + off * east, northM: point.northM + off * north }))
}

function descend(reaches: readonly Reach[], start: LocalPoint): FittedPoint | null {
  let at = start
  let chiSquare = misfit(reaches, at)
  for (let step = 0; step < STEPS_MAX; step++) {
    const move = gaussNewtonStep(reaches, at)
    if (!move) return null
    let share = 1
    let next = moved(at, move, share)
    while (misfit(reaches, next) > chiSquare && share > 1e-6) {
      share /= 2
      next = moved(at, move, share)
    }
    const better = misfit(reaches, next)
    const still = apartM(at, next) < STILL_M || better > chiSquare
    if (better <= chiSquare) {
      at = next
      chiSquare = better
    }
    if (still) break
  }
  const final = gaussNewtonStep(reaches, at)
  if (!final) return null
  const spare = reaches.length - 2
  const p = spare > 0 ? chiSquareUpper(chiSquare, spare) : null
  return { at, covariance: final.covariance, chiSquare, spare, p }
}

type Step = LocalPoint & { covariance: Covariance }

/** One linear step; null where every tape pulls along one line. */
function gaussNewtonStep(reaches: readonly Reach[], at: LocalPoint): Step | null {
  const rows: number[][] = []
  const values: number[] = []
  for (const { from, lengthM } of reaches) {
    const d = apartM(from, at)
    if (d === 0) return null
    rows.push([(at.eastM - from.eastM) / d, (at.northM - from.northM) / d])
    values.push(lengthM - d)
  }
  const weights = reaches.map((r) => 1 / r.sigmaM ** 2)
  const solved = weightedLeastSquares(rows, values, weights)
  if (solved.kind === 'singular') return null
  const [eastM = 0, northM = 0] = solved.coefficients
  const [[ee = 0, en = 0] = [], [, nn = 0] = []] = solved.inverse
  return { eastM, northM, covariance: { ee, nn, en } }
}

const moved = (at: LocalPoint, move: LocalPoint, share: number): LocalPoint => ({
  eastM: at.eastM + share * move.eastM,
  northM: at.northM + share * move.northM,
})

function misfit(reaches: readonly Reach[], at: LocalPoint): number {
  return reaches.reduce((sum, r) => sum + ((apartM(r.from, at) - r.lengthM) / r.sigmaM) ** 2, 0)
}
