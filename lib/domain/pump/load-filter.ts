import { SHAPES } from './blocking-laws'

/** Readings of one cartridge in order of use, made ready for the filter: one value a reading. */
export type LoadColumns = {
  used: Float64Array
  /** Logarithm of the drop, less the clean drop and the share of the flow that the prior expects. */
  logs: Float64Array
  flowLogs: Float64Array
}

/** One law at one rate: where each reading lies on it. Use is counted in lives of this law at the prior's clean drop. */
export type Place = {
  shape: number
  gridLog: number
  /** Use on the law's own scale at the end of that life. */
  end: number
  /** Deviation of the rate about this one: half way to the next rate of the grid. */
  slack: number
  at: Float64Array
  growthLogs: Float64Array
  slopes: Float64Array
}

/** Sums of squares and products of the innovations of three columns (reading, 1, flow), and the state they leave. */
export type Filtered = {
  w: number
  wy: number
  wyy: number
  wf: number
  wff: number
  wyf: number
  /** Sum of the logarithms of the innovations' variances. */
  logs: number
  /** Lead over the law (in lives) and drift of the rate after the last reading, for each column. */
  leadY: number
  lead1: number
  leadF: number
  rateY: number
  rate1: number
  rateF: number
  /** Their variances and covariance. */
  leadLead: number
  leadRate: number
  rateRate: number
}

/** Dirt does not come evenly with the water: variance of the lead that adds up over a life. */
export const UNEVENNESS2 = 0.04 ** 2

/** Where the readings lie on a law that ends, at its own rate, at a use of which the logarithm is given. */
export function placeOf(
  { used }: LoadColumns,
  shape: number,
  end: number,
  gridLog: number,
  slack: number,
): Place {
  const law = SHAPES[shape]
  const life = Math.exp(gridLog)
  const place = {
    shape,
    gridLog,
    end,
    slack,
    at: new Float64Array(used.length),
    growthLogs: new Float64Array(used.length),
    slopes: new Float64Array(used.length),
  }
  for (let i = 0; i < used.length; i++) {
    const t = (used[i] ?? 0) / life
    const growthLog = law?.growthLog(end * t) ?? 0
    place.at[i] = t
    place.growthLogs[i] = growthLog
    place.slopes[i] = end * (law?.slope(end * t, growthLog) ?? 0)
  }
  return place
}

/** A state to be filled: one object serves a whole grid, since making thousands costs more than the sums in them. */
export const emptyState = (): Filtered => ({
  w: 0,
  wy: 0,
  wyy: 0,
  wf: 0,
  wff: 0,
  wyf: 0,
  logs: 0,
  leadY: 0,
  lead1: 0,
  leadF: 0,
  rateY: 0,
  rate1: 0,
  rateF: 0,
  leadLead: 0,
  leadRate: 0,
  rateRate: 0,
})

/**
 * Readings run through a law whose rate drifts: the lead over the law and its rate are a state that strays (linear growth
 * model of West & Harrison 1997, ch. 7; filter of Kalman 1960, both from memory), and clean drop and flow power are left
 * for the normal equations by running three columns at once (augmented filter: de Jong 1991, Annals of Statistics 19,
 * from memory).
 *
 * Shape   `variances` one a reading; `drift` deviation of the rate over a life, as a share; the answer is put into `into`.
 * Cost    some sixty products a reading; nothing is allocated.
 */
export function filter(
  columns: LoadColumns,
  place: Place,
  variances: Float64Array,
  drift: number,
  into: Filtered,
): void {
  begin(into, place.slack)
  let product = 1
  let before = 0
  for (let i = 0; i < place.at.length; i++) {
    const t = place.at[i] ?? 0
    stray(into, t - before, drift * drift)
    before = t
    const slope = place.slopes[i] ?? 0
    const level = (columns.logs[i] ?? 0) - (place.growthLogs[i] ?? 0)
    product *= take(into, slope, level, columns.flowLogs[i] ?? 0, variances[i] ?? 1)
    if (product < 1e-200 || product > 1e200) {
      into.logs += Math.log(product)
      product = 1
    }
  }
  into.logs += Math.log(product)
}

function begin(s: Filtered, slack: number): void {
  s.w = s.wy = s.wyy = s.wf = s.wff = s.wyf = s.logs = 0
  s.leadY = s.lead1 = s.leadF = s.rateY = s.rate1 = s.rateF = 0
  s.leadLead = s.leadRate = 0
  s.rateRate = slack * slack
}

/** The state some part of a life later. */
function stray(s: Filtered, step: number, q: number): void {
  s.leadY += step * s.rateY
  s.lead1 += step * s.rate1
  s.leadF += step * s.rateF
  s.leadLead += step * (2 * s.leadRate + step * (s.rateRate + (q * step) / 3) + UNEVENNESS2)
  s.leadRate += step * (s.rateRate + (q * step) / 2)
  s.rateRate += q * step
}

/** Takes a reading in. Answers the variance with which it was expected. */
function take(s: Filtered, slope: number, level: number, flow: number, noise: number): number {
  const missY = level - slope * s.leadY
  const miss1 = 1 - slope * s.lead1
  const missF = flow - slope * s.leadF
  const variance = slope * slope * s.leadLead + noise
  const weight = 1 / variance
  s.w += weight * miss1 * miss1
  s.wy += weight * missY * miss1
  s.wyy += weight * missY * missY
  s.wf += weight * missF * miss1
  s.wff += weight * missF * missF
  s.wyf += weight * missY * missF
  const gain = slope * s.leadLead * weight
  const rateGain = slope * s.leadRate * weight
  s.leadY += gain * missY
  s.lead1 += gain * miss1
  s.leadF += gain * missF
  s.rateY += rateGain * missY
  s.rate1 += rateGain * miss1
  s.rateF += rateGain * missF
  s.rateRate -= rateGain * slope * s.leadRate
  s.leadRate -= gain * slope * s.leadRate
  s.leadLead -= gain * slope * s.leadLead
  return variance
}
