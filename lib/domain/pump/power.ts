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

export type PumpReading = { flowM3PerS: number; headM: number; volts: number; amps: number }

export type PumpVerdict =
  | {
      kind: 'pump' | 'pump-holds'
      /** Efficiency now over efficiency at installation. */
      efficiencyRatio: number
      /** Flow now, taken back to the reference voltage, over reference flow. */
      flowRatio: number
      message: string
    }
  | { kind: 'cannot-say'; message: string }

/** Readings of flow, head and amps by hand stray some 5 % each, so a smaller loss says nothing. */
const LOSS_MIN = 0.15

/**
 * Whether the pump itself has weakened: wire-to-water efficiency now against the reference at installation.
 *
 * Why efficiency: a falling table lowers flow by asking for more head, a low sun by giving less voltage; neither
 * changes what the pump makes of each watt by much, wear does. The flow is also shown at the reference voltage
 * (a direct-current motor's speed follows its voltage; affinity laws).
 * Answer  'pump' with 15 % or more of the efficiency lost, 'pump-holds' otherwise; 'cannot-say' where a reading is
 *         missing or impossible, or the voltages differ by more than a third (other losses then dominate).
 * Units   m³/s, m of total head, V, A.
 */
export function comparePump(reference: PumpReading | null, now: PumpReading | null): PumpVerdict {
  if (!reference)
    return {
      kind: 'cannot-say',
      message: 'No reference from installation: record flow, head, volts and amps now as one.',
    }
  if (!now)
    return { kind: 'cannot-say', message: 'Measure flow, head, volts and amps together at the next visit.' }
  const before = wireToWater(reference.flowM3PerS, reference.headM, reference.volts * reference.amps)
  const today = wireToWater(now.flowM3PerS, now.headM, now.volts * now.amps)
  if (before.kind === 'cannot-say') return { kind: 'cannot-say', message: `Reference: ${before.message}` }
  if (today.kind === 'cannot-say') return today
  if (!(before.share > 0)) return { kind: 'cannot-say', message: 'The reference has no flow or head.' }
  const speed = reference.volts / now.volts
  if (speed > 1.33 || speed < 0.75) {
    return {
      kind: 'cannot-say',
      message: 'Voltage differs too much from the reference: measure again in full sun.',
    }
  }
  const efficiencyRatio = today.share / before.share
  const flowRatio = (now.flowM3PerS * speed) / reference.flowM3PerS
  const percent = Math.round((1 - efficiencyRatio) * 100)
  return efficiencyRatio <= 1 - LOSS_MIN
    ? {
        kind: 'pump',
        efficiencyRatio,
        flowRatio,
        message: `The pump makes ${percent} % less of each watt than when new: look at impeller, brushes and suction leaks before the well.`,
      }
    : {
        kind: 'pump-holds',
        efficiencyRatio,
        flowRatio,
        message:
          'The pump makes of each watt what it did when new, within the error of the readings: look at the well or the table.',
      }
}
