import type { CurvePoint, PumpType } from './pump-curve'

/** What drives a pump: panels alone, or mains (or a battery). */
export type PumpPower = 'sun' | 'mains'

/** A pump as its model has it; what is not known is null, never zero. */
export type PumpFacts = {
  name: string
  type: PumpType | null
  power: PumpPower | null
  /** Length of a new brush, and the length at which the set is to be changed, m. */
  brushNewM: number | null
  brushMinimumM: number | null
  brushCount: number | null
  /** Net positive suction head that the pump asks for, m. */
  npshRequiredM: number | null
  /** Volts at which the points of the sheet were taken. */
  referenceVolts: number | null
  sheet: readonly CurvePoint[]
  /** The brush set that fits it, as it is ordered. */
  brushPart: string | null
}

/** A cartridge as its model has it. */
export type CartridgeFacts = {
  name: string
  /** Pressure drop at which it is done, and the flow for which that is meant. */
  terminalDropPa: number | null
  referenceFlowM3PerS: number | null
  oRing: string | null
}
