import { FLOW_POWER, SHAPE_PRIOR } from './blocking-laws'

/**
 * By how much the rate of loading may drift away from a law's own over a life, as a share (deviation), and how likely
 * that is beforehand. No law is quite right, and the dirt of a well changes: a cake cracks, a spring runs clearer.
 */
export const DRIFTS: readonly number[] = [0, 0.6]
const DRIFT_PRIOR: readonly number[] = [0.7, 0.3]

/** What is believed before this cartridge's readings, in natural logarithms. */
export type LoadPrior = {
  cleanLog: { mean: number; deviation: number }
  /** Use at the terminal drop. */
  limitLog: { mean: number; deviation: number }
  /** Shares of the laws, in the order of SHAPES, and of the drifts, in that of DRIFTS. */
  shapes: readonly number[]
  drifts: readonly number[]
  /** Power of flow with which the drop grows. */
  power: { mean: number; deviation: number }
}

/** What is believed of a cartridge of which nothing is known. Units Pa, and m³ or days for the use. */
export const openPrior = (terminalPa: number, limitUse: number): LoadPrior => ({
  // A clean cartridge takes some fifth of the terminal drop; lives differ by a factor of e either way.
  cleanLog: { mean: Math.log(terminalPa * 0.2), deviation: 0.6 },
  limitLog: { mean: Math.log(limitUse), deviation: 1.05 },
  shapes: SHAPE_PRIOR,
  drifts: DRIFT_PRIOR,
  power: FLOW_POWER,
})
