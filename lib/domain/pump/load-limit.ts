import { SHAPES } from './blocking-laws'
import type { Filtered, Place } from './load-filter'
import { UNEVENNESS2 } from './load-filter'

/** Clean drop (less what the prior expects) and flow power (likewise) after the readings, with their covariance. */
export type Solved = {
  clean: number
  tilt: number
  cleanVariance: number
  tiltVariance: number
  covariance: number
}

/** The slowest that loading is carried on, as a share of the law's own rate. */
const SLOWEST = 0.2

/** Logarithm of the use at which a drop is reached, with its deviation; and the lead and rate that it starts from. */
export type Reached = { log: number; deviation: number }

/**
 * Use at which a drop is reached by a law that has drifted as the readings say, and goes on from there.
 *
 * Shape   `targetLog` is the logarithm of that drop over the clean drop that the prior expects, `targetDoubt` the
 *         deviation of that logarithm (a reference flow that nobody set).
 */
export function reachedBy(
  place: Place,
  state: Filtered,
  solved: Solved,
  drift: number,
  targetLog: number,
  targetDoubt: number,
  into: Reached,
): void {
  const law = SHAPES[place.shape]
  const clean = solved.clean
  const tilt = solved.tilt
  const growthLog = Math.min(300, Math.max(1e-4, targetLog - clean))
  const use = law?.reach(Math.exp(growthLog)) ?? 0
  const limit = use / place.end
  const now = place.at.at(-1) ?? 0
  const lead = state.leadY - clean * state.lead1 - tilt * state.leadF
  const speed = Math.max(SLOWEST, 1 + state.rateY - clean * state.rate1 - tilt * state.rateF)
  const left = (limit - now - lead) / speed
  const ahead = Math.max(0, left)
  // What the clean drop and the flow power shift at the limit, and what has strayed until then.
  const slope = Math.max(1e-6, place.end * (law?.slope(use, growthLog) ?? 0))
  const byClean = state.lead1 + ahead * state.rate1 - 1 / slope
  const byTilt = state.leadF + ahead * state.rateF
  const strayed =
    state.leadLead +
    ahead * (2 * state.leadRate + ahead * (state.rateRate + (drift * drift * ahead) / 3) + UNEVENNESS2)
  const variance =
    Math.max(0, strayed) +
    byClean * byClean * solved.cleanVariance +
    byTilt * byTilt * solved.tiltVariance +
    2 * byClean * byTilt * solved.covariance +
    (targetDoubt / slope) ** 2
  const total = Math.max(now + left, 0.02 * Math.max(now, limit))
  into.log = place.gridLog + Math.log(total)
  into.deviation = Math.min(2, Math.sqrt(variance) / speed / total)
}
