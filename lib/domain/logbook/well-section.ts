import { type EffectiveArea, effectiveArea } from '@/lib/domain/yield/tests/storage'
import type { WellRegister } from './register'

/** The measures that say how much water a metre of rise takes. */
export type SectionSizes = Pick<
  WellRegister,
  'casingBoreM' | 'casingOutsideM' | 'pitDiameterM' | 'pitLengthM' | 'pitWidthM' | 'gravelPorosity'
>

export type FillingArea = EffectiveArea | { kind: 'cannot-say'; reason: 'casing-unknown'; message: string }

/** The area that fills when the water rises, from the register; 'cannot-say' names the measure that is missing. */
export function fillingArea(register: SectionSizes): FillingArea {
  const { casingBoreM, casingOutsideM, gravelPorosity } = register
  if (casingBoreM === null || !(casingBoreM > 0)) {
    return {
      kind: 'cannot-say',
      reason: 'casing-unknown',
      message: 'The casing bore is not recorded: enter it among the measures of the well.',
    }
  }
  return effectiveArea({
    casingBoreM,
    // An outside smaller than the bore is a slip of the register; the bore stands in for it.
    casingOutsideM: casingOutsideM !== null && casingOutsideM >= casingBoreM ? casingOutsideM : null,
    pit: pitOf(register),
    gravelPorosity,
  })
}

function pitOf({ pitDiameterM, pitLengthM, pitWidthM }: SectionSizes) {
  if (pitDiameterM !== null && pitDiameterM > 0) return { shape: 'round' as const, diameterM: pitDiameterM }
  if (pitLengthM !== null && pitWidthM !== null && pitLengthM > 0 && pitWidthM > 0) {
    return { shape: 'rectangular' as const, lengthM: pitLengthM, widthM: pitWidthM }
  }
  return null
}
