import type { Normal } from './pooling'

/**
 * How a set of brushes wears, after the readings so far. `worn` is the share of the room between new and minimum that is
 * gone, `rate` the wear over a life as a share of the law's own, `trend` by how much that rate changes over a life;
 * then their variances and covariances, and the logarithm of the likelihood of the readings.
 */
export type WearState = {
  worn: number
  rate: number
  trend: number
  ww: number
  wr: number
  wt: number
  rr: number
  rt: number
  tt: number
  log: number
}

/** Wear does not run as evenly as a line: variance of what is worn that adds up over a life. */
const UNEVENNESS2 = 0.1 ** 2 / 15

/** New brushes: nothing worn but for `newDoubt`, at the law's own rate but for `slack`. */
export const freshState = (newDoubt: number, slack: number, trend: Normal): WearState => ({
  worn: 0,
  rate: 1,
  trend: trend.mean,
  ww: newDoubt ** 2,
  wr: 0,
  wt: 0,
  rr: slack ** 2,
  rt: 0,
  tt: trend.deviation ** 2,
  log: 0,
})

/** Lets a state wear on by a part of a life. */
export function wearOn(s: WearState, part: number, drift: number): void {
  const half = (part * part) / 2
  const q = drift * drift
  s.worn += part * s.rate + half * s.trend
  s.rate += part * s.trend
  const wr = s.wr + part * s.rr + half * s.rt
  const wt = s.wt + part * s.rt + half * s.tt
  s.ww += part * (s.wr + wr) + half * (s.wt + wt) + UNEVENNESS2 * part + (q * part * part * part) / 3
  s.wr = wr + part * wt + q * half
  s.wt = wt
  s.rr += part * (2 * s.rt + part * s.tt) + q * part
  s.rt += part * s.tt
}

/** Takes in a reading of what is worn (as a share of the room) with the deviation of its error. */
export function takeIn(s: WearState, worn: number, error: number): void {
  const variance = s.ww + error * error
  const miss = worn - s.worn
  const [onWorn, onRate, onTrend] = [s.ww / variance, s.wr / variance, s.wt / variance]
  s.worn += onWorn * miss
  s.rate += onRate * miss
  s.trend += onTrend * miss
  s.rr -= onRate * s.wr
  s.rt -= onRate * s.wt
  s.tt -= onTrend * s.wt
  s.ww -= onWorn * s.ww
  s.wr -= onWorn * s.wr
  s.wt -= onWorn * s.wt
  s.log -= 0.5 * ((miss * miss) / variance + Math.log(variance))
}

/** The slowest that wear is carried on, as a share of the law's own rate. */
const SLOWEST = 0.2

/** What is left until nothing of the room is, as a part of a life, with its deviation; the state wears on until then. */
export function wearOut(s: WearState, drift: number): { left: number; deviation: number } {
  const room = Math.max(0, 1 - s.worn)
  let left = room / Math.max(SLOWEST, s.rate)
  // The rate on the way is that of its middle; a few rounds settle the two.
  for (let round = 0; round < 6; round++) left = room / Math.max(SLOWEST, s.rate + (left * s.trend) / 2)
  wearOn(s, left, drift)
  return { left, deviation: Math.sqrt(Math.max(0, s.ww)) / Math.max(SLOWEST, s.rate) }
}
