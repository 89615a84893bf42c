import { FLOW_POWER } from './blocking-laws'
import type { LoadReading } from './cartridge-runs'

/** What a reading strays by besides its share: variance of its logarithm, and the flow taken where none was read. */
export type LoadNoise = { flowLogs: number[]; extra: number[] }

/** Steps in which people read gauges, Pa: kilopascals, and halves and whole pounds a square inch. */
const STEPS_PA = [20_000, 10_000, 5000, 2500, 2000, 13_789.5, 6894.76, 3447.38]
/** No gauge of this trade is read finer than about this. */
const LEAST_STEP_PA = 1000
/** Flows of one well differ by about this share (deviation of the logarithm), held as firmly as so many readings. */
const FLOW_SPREAD = 0.2
const FLOW_FIRMNESS = 3

/** The coarsest step in which every drop was read; the finest where the drops follow no known one. */
export function gaugeStepPa(dropsPa: readonly number[]): number {
  if (new Set(dropsPa).size < 3) return LEAST_STEP_PA
  const follows = (step: number) =>
    dropsPa.every((drop) => Math.abs(drop / step - Math.round(drop / step)) * step < 20)
  return STEPS_PA.filter(follows).reduce((most, step) => Math.max(most, step), LEAST_STEP_PA)
}

/**
 * Noise of each reading that is there however steady the hand: rounding of the gauges, and a flow that nobody read.
 *
 * Model   a drop is the difference of two pressures, each rounded to the step: step²/12 twice (Sheppard 1898). The
 *         variance is taken at the `expectedPa` drop, not at the one read: else low readings would lose their say.
 *         A missing flow is taken as the middle of those read, straying as they do.
 */
export function loadNoise(readings: readonly LoadReading[], expectedPa: readonly number[]): LoadNoise {
  const step = gaugeStepPa(readings.map((r) => r.dropPa))
  const logs = readings.flatMap((r) => (r.flowRatio === null ? [] : [Math.log(r.flowRatio)]))
  const middle = logs.reduce((sum, log) => sum + log, 0) / (FLOW_FIRMNESS + logs.length)
  const squares = logs.reduce((sum, log) => sum + (log - middle) ** 2, 0)
  const spread2 = (FLOW_FIRMNESS * FLOW_SPREAD ** 2 + squares) / (FLOW_FIRMNESS + logs.length)
  return {
    flowLogs: readings.map((r) => (r.flowRatio === null ? middle : Math.log(r.flowRatio))),
    extra: readings.map(
      (r, i) =>
        step ** 2 / 6 / Math.max(expectedPa[i] ?? r.dropPa, step) ** 2 +
        (r.flowRatio === null ? FLOW_POWER.mean ** 2 * spread2 : 0),
    ),
  }
}
