import { GRAVITY_M_PER_S2 } from './water-physics'

const WATER_KG_PER_M3 = 1000
const HEAT_J_PER_KG_K = 4180

/** Power in W that the water gains: ρ g Q H. Density defaults to 1,000 kg/m³, as in textbooks. */
export function waterPowerW(flowM3PerS: number, headM: number, densityKgPerM3 = WATER_KG_PER_M3): number {
  return densityKgPerM3 * GRAVITY_M_PER_S2 * flowM3PerS * headM
}

export type Efficiency = { kind: 'efficiency'; share: number } | { kind: 'cannot-say'; message: string }

/**
 * Wire-to-water efficiency: power gained by the water over electric power drawn, 0 to 1.
 *
 * Units   m³/s, m of total head, W (volts times amps for direct current).
 * Answer  'cannot-say' where no power is drawn, or more comes out than goes in (a reading or its unit is wrong).
 */
export function wireToWater(flowM3PerS: number, headM: number, electricW: number): Efficiency {
  if (!(electricW > 0))
    return { kind: 'cannot-say', message: 'No electric power was read: measure volts and amps.' }
  const share = waterPowerW(flowM3PerS, headM) / electricW
  if (share > 1) {
    return {
      kind: 'cannot-say',
      message: 'More power comes out than goes in: check flow, head, volts and amps, and their units.',
    }
  }
  return { kind: 'efficiency', share }
}

/** Warming of the water in K by what the pump loses: (1 − η) shaft power over ρ c Q. Units W, m³/s. */
export function warmingK(shaftW: number, pumpEfficiency: number, flowM3PerS: number): number {
  return ((1 - pumpEfficiency) * shaftW) / (WATER_KG_PER_M3 * HEAT_J_PER_KG_K * flowM3PerS)
}

export type PumpPoint = { flowM3PerS: number; headM: number; powerW: number }

/**
 * The same pump at another speed: flow with the ratio, head with its square, power with its cube.
 * Throws  RangeError for a ratio that is not above zero.
 */
export function atSpeed(point: PumpPoint, speedRatio: number): PumpPoint {
  if (!(speedRatio > 0)) throw new RangeError(`speed ratio ${speedRatio} is not above zero`)
  return {
    flowM3PerS: point.flowM3PerS * speedRatio,
    headM: point.headM * speedRatio ** 2,
    powerW: point.powerW * speedRatio ** 3,
  }
}

/** Read together: m³/s, m of total head, V, A. Amps that nobody read tell no power, and take nothing from the flow. */
export type PumpReading = { flowM3PerS: number; headM: number; volts: number; amps: number | null }

/** Power drawn, W; null where no amps were read. */
export const drawnW = ({ volts, amps }: Pick<PumpReading, 'volts' | 'amps'>): number | null =>
  amps === null ? null : volts * amps

/** What the water gains of the power drawn, of one reading. */
export const efficiencyOf = (reading: PumpReading): Efficiency =>
  wireToWater(reading.flowM3PerS, reading.headM, drawnW(reading) ?? 0)
