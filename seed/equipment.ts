import { OUTFIT } from '@/lib/access/viewer'
import type { Fact } from '@/lib/domain/logbook/kinds'
import { toSi } from '@/lib/domain/quantity'
import type { Db } from '@/lib/records/db'
import { type ModelWrite, saveCartridgeModel, savePumpModel } from '@/lib/records/models'
import type { WellFields } from '@/lib/records/well-fields'
import type { Place } from './valley'

/** The invented pumps and the cartridge of the valley, as their sheets would have them. */
export const SUN_PUMP = 'Larkspur D24, diaphragm (invented)'
const MAINS_PUMP = 'Bench Piston 5 (invented)'
/** What fits the housings of the two kinds of pump. */
export const CARTRIDGES = { sun: '10 in, 20 micron', mains: '20 in, 5 micron' } as const

/** Puts the models of the demo in the register, before its wells name them. */
export async function storeDemoModels(db: Db, at: string): Promise<void> {
  const inch = (value: number) => toSi(value, 'in')
  const none = {
    brushNewM: null,
    brushMinimumM: null,
    brushCount: null,
    brushPart: null,
    warrantyMonths: null,
    retired: false,
  }
  const outcomes = [
    await savePumpModel(
      db,
      OUTFIT,
      null,
      {
        ...none,
        name: SUN_PUMP,
        type: 'displacement',
        power: 'sun',
        brushNewM: inch(0.75),
        brushMinimumM: inch(0.35),
        brushCount: 2,
        brushPart: 'brush set BS-24',
        warrantyMonths: 36,
        npshRequiredM: toSi(8, 'ft'),
        referenceVolts: 48,
        sheet: [],
        typed: {
          brushNewM: '0.75 in',
          brushMinimumM: '0.35 in',
          npshRequiredM: '8 ft',
          referenceVolts: '48 V',
        },
      },
      at,
    ),
    await savePumpModel(
      db,
      OUTFIT,
      null,
      {
        ...none,
        name: MAINS_PUMP,
        type: 'displacement',
        power: 'mains',
        warrantyMonths: 24,
        npshRequiredM: toSi(9, 'ft'),
        referenceVolts: 230,
        sheet: [],
        typed: { npshRequiredM: '9 ft', referenceVolts: '230 V' },
      },
      at,
    ),
    await cartridgeModel(db, CARTRIDGES.sun, at),
    await cartridgeModel(db, CARTRIDGES.mains, at),
  ]
  const refused = outcomes.find(({ kind }) => kind !== 'stored')
  if (refused) throw new Error(`a model of the demo was refused: ${refused.kind}`)
}

function cartridgeModel(db: Db, name: string, at: string): Promise<ModelWrite> {
  const fields = {
    name,
    terminalDropPa: toSi(20, 'psi'),
    referenceFlowM3PerS: toSi(7, 'gal/min'),
    oRing: 'housing, 4 in',
    warrantyMonths: null,
    retired: false,
    typed: { terminalDropPa: '20 psi', referenceFlowM3PerS: '7 gal/min' },
  }
  return saveCartridgeModel(db, OUTFIT, null, fields, at)
}

/** What was put in on the day a well was built; the brushes came with the pump. */
export function partsAtFirst(solar: boolean): Extract<Fact, { kind: 'service-done' }>['parts'] {
  return [
    { part: 'pump', model: solar ? SUN_PUMP : MAINS_PUMP, count: 1 },
    ...(solar ? [{ part: 'brushes' as const, model: 'brush set BS-24', count: 1 }] : []),
    { part: 'check valve', model: '1¼ in brass', count: 1, warrantyMonths: 12 },
    { part: 'cap', model: '8 in, vented and screened', count: 1 },
  ]
}

/** Which pump and cartridge a well of the valley has, and its pipes. */
export function equipmentFor(place: Place): Partial<WellFields> {
  return {
    pumpModel: place.solar ? SUN_PUMP : MAINS_PUMP,
    cartridgeModel: CARTRIDGES[place.solar ? 'sun' : 'mains'],
    suctionBoreM: toSi(1.25, 'in'),
    suctionMaterial: 'plastic',
    suctionFittings: 'foot valve, check valve, 2 elbows',
    outletDepthM: toSi(3.5, 'ft'),
    frostDepthM: toSi(place.area === 'Snow Line' ? 4 : 2.5, 'ft'),
  }
}
