import { FLOW_POWER, SHAPE_PRIOR } from './blocking-laws'

/** What is believed before this cartridge's readings, in natural logarithms. */
export type LoadPrior = {
  cleanLog: { mean: number; deviation: number }
  /** Use at the terminal drop. */
  limitLog: { mean: number; deviation: number }
  shapes: readonly number[]
  /** Power of flow with which the drop grows. */
  power: { mean: number; deviation: number }
}

/** What is believed of a cartridge of which nothing is known. Units Pa, and m³ or days for the use. */
export const openPrior = (terminalPa: number, limitUse: number): LoadPrior => ({
  // A clean cartridge takes some fifth of the terminal drop; lives differ by a factor of e either way.
  cleanLog: { mean: Math.log(terminalPa * 0.2), deviation: 0.6 },
  limitLog: { mean: Math.log(limitUse), deviation: 1.05 },
  shapes: SHAPE_PRIOR,
  power: FLOW_POWER,
})
