/** Tapes that only just meet, so that the point lies on the line through their marks. */
import { chiSquareUpper } from '@/lib/domain/stats'
import { type Meeting, meet } from './circles'
import { ellipseReach } from './ellipse'
import type { FittedPoint, Reach } from './fit'
import { apartM, type LocalPoint } from './plane'

/** Tapes that miss each other by less than this many standard deviations may still touch (95 % of two-sided misses). */
const REACH = ellipseReach(0.95)

/**
 * The point where tapes from marks in a line touch, or null where they do not touch.
 *
 * Method  the two outermost tapes touch when their gap is within their error, or when the two places where they meet
 *         lie closer to the line than their error lets the point stray from it: √(2 σ r₁ r₂ / d).
 * Answer  along the line the point is as good as the tapes; across it the covariance holds that straying. It is a
 *         fair size, not an exact one: the true spread across is not normal there.
 */
export function touchingTapes(reaches: readonly Reach[]): FittedPoint | null {
  const pair = outermost(reaches)
  if (!pair) return null
  const [a, b] = pair
  const d = apartM(a.from, b.from)
  const sigmaM = Math.hypot(a.sigmaM, b.sigmaM)
  const acrossVar = (2 * sigmaM * a.lengthM * b.lengthM) / d
  const at = touchingPoint(meet(a.from, a.lengthM, b.from, b.lengthM), sigmaM, Math.sqrt(acrossVar))
  if (!at) return null
  const alongVar = 1 / reaches.reduce((sum, r) => sum + 1 / r.sigmaM ** 2, 0)
  const east = (b.from.eastM - a.from.eastM) / d
  const north = (b.from.northM - a.from.northM) / d
  const covariance = {
    ee: alongVar * east ** 2 + acrossVar * north ** 2,
    nn: alongVar * north ** 2 + acrossVar * east ** 2,
    en: (alongVar - acrossVar) * east * north,
  }
  const spare = reaches.length - 2
  const chiSquare = reaches.reduce((sum, r) => sum + ((apartM(r.from, at) - r.lengthM) / r.sigmaM) ** 2, 0)
  return { at, covariance, chiSquare, spare, p: spare > 0 ? chiSquareUpper(chiSquare, spare) : null }
}

function touchingPoint(meeting: Meeting, sigmaM: number, acrossM: number): LocalPoint | null {
  if (meeting.kind === 'one-mark') return null
  if (meeting.kind !== 'two') return meeting.gapM <= REACH * sigmaM ? meeting.nearest : null
  const { left, right } = meeting
  if (apartM(left, right) / 2 > acrossM) return null
  return { eastM: (left.eastM + right.eastM) / 2, northM: (left.northM + right.northM) / 2 }
}

/** The two marks farthest apart; null where all are one point. */
function outermost(reaches: readonly Reach[]): [Reach, Reach] | null {
  let best: [Reach, Reach] | null = null
  reaches.forEach((a, i) => {
    for (const b of reaches.slice(i + 1)) {
      if (apartM(a.from, b.from) > (best ? apartM(best[0].from, best[1].from) : 0)) best = [a, b]
    }
  })
  return best
}
