import type { CartridgeFacts, PipeMaterial, PumpFacts } from '@/lib/domain/pump'
import type { Day } from '@/lib/domain/quantity/day'
import type { Duty } from '@/lib/domain/upkeep/types'

/** What the register holds of a well's pump, cartridge and pipes. Unknown is null. */
export type Equipment = {
  altitudeM: number | null
  /** Level ground to pump. */
  liftM: number | null
  latitude: number | null
  /** Depth of the buried outlet, and how deep the ground freezes there, m. */
  outletDepthM: number | null
  frostDepthM: number | null
  suction: {
    boreM: number | null
    lengthM: number | null
    material: PipeMaterial | null
    /** Sum of K of its fittings. */
    kSum: number | null
  }
  pump: PumpFacts | null
  cartridge: CartridgeFacts | null
  /** What the pump gave when it was put in. Of use only where flow and head are both known. */
  reference: {
    on: Day | null
    flowM3PerS: number | null
    headM: number | null
    amps: number | null
    volts: number | null
  }
}

export const NO_EQUIPMENT: Equipment = {
  altitudeM: null,
  liftM: null,
  latitude: null,
  outletDepthM: null,
  frostDepthM: null,
  suction: { boreM: null, lengthM: null, material: null, kSum: null },
  pump: null,
  cartridge: null,
  reference: { on: null, flowM3PerS: null, headM: null, amps: null, volts: null },
}

/** Work that changes the part; a mere check of it has no end to reach. */
export const CHANGES_CARTRIDGE = /(?:replace|change|renew).*cartridge|cartridge.*(?:replace|change|renew)/
export const CHANGES_BRUSHES = /(?:replace|change|renew).*brush|brush.*(?:replace|change|renew)/

/**
 * The duties with the ends that the models name, where a duty that changes the part names none itself and no other duty
 * of the well does. `from` says that the model did.
 */
export function withModelLimits<D extends Duty>(duties: readonly D[], { pump, cartridge }: Equipment): D[] {
  const named = new Set(duties.map((duty) => duty.condition?.kind))
  return duties.map((duty) => {
    if (duty.condition !== null) return duty
    if (cartridge?.terminalDropPa && !named.has('pressure_drop') && CHANGES_CARTRIDGE.test(duty.key)) {
      const limitSi = cartridge.terminalDropPa
      return { ...duty, condition: { kind: 'pressure_drop', limitSi, from: cartridge.name } }
    }
    if (pump?.brushMinimumM && !named.has('brush_length') && CHANGES_BRUSHES.test(duty.key)) {
      return { ...duty, condition: { kind: 'brush_length', limitSi: pump.brushMinimumM, from: pump.name } }
    }
    return duty
  })
}
