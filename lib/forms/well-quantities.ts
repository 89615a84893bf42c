import { displayUnit, type UnitSystem, type Use, unitSymbol } from '@/lib/domain/quantity'

type QuantityField = {
  use: Use
  label: string
  hint: string
  /** In SI. */
  min: number
  max: number
}

/** The measured fields of a well as built, in the order of the form. The ranges stop slips of the pen, no more. */
export const WELL_QUANTITIES = {
  wellDepthM: {
    use: 'depth',
    label: 'Well depth',
    hint: 'Ground to the bottom of the casing',
    min: 0.1,
    max: 1000,
  },
  casingBoreM: { use: 'bore', label: 'Casing bore', hint: 'Inside diameter', min: 0.01, max: 5 },
  casingOutsideM: { use: 'bore', label: 'Casing outside diameter', hint: '', min: 0.01, max: 5 },
  pitDiameterM: {
    use: 'depth',
    label: 'Pit diameter',
    hint: 'Of the gravel pack, where the pit is round',
    min: 0.05,
    max: 20,
  },
  pitLengthM: { use: 'depth', label: 'Pit length', hint: 'Where the pit is square', min: 0.05, max: 20 },
  pitWidthM: { use: 'depth', label: 'Pit width', hint: 'Where the pit is square', min: 0.05, max: 20 },
  gravelPorosity: {
    use: 'share',
    label: 'Gravel porosity',
    hint: 'Share of the gravel that is open, such as 35 %',
    min: 0.05,
    max: 0.7,
  },
  intakeDepthM: {
    use: 'depth',
    label: 'Intake depth',
    hint: 'Ground to the pump intake',
    min: 0.1,
    max: 1000,
  },
  liftM: {
    use: 'lift',
    label: 'Lift',
    hint: 'Level ground to the pump; negative where the pump sits below',
    min: -100,
    max: 500,
  },
  altitudeM: {
    use: 'altitude',
    label: 'Altitude',
    hint: 'Of the ground, above sea level',
    min: -450,
    max: 9000,
  },
  demandM3PerS: { use: 'demand', label: 'Demand', hint: 'What the household or farm uses', min: 0, max: 1 },
  storageM3: { use: 'tank', label: 'Storage', hint: 'What the tanks hold together', min: 0, max: 100_000 },
  outletDepthM: {
    use: 'depth',
    label: 'Outlet depth',
    hint: 'Ground to the buried outlet and its pipe',
    min: 0,
    max: 20,
  },
  frostDepthM: {
    use: 'depth',
    label: 'Frost depth',
    hint: 'How deep the ground freezes there; the building department knows',
    min: 0,
    max: 20,
  },
  suctionBoreM: { use: 'bore', label: 'Suction pipe bore', hint: 'Inside diameter', min: 0.003, max: 1 },
  suctionLengthM: {
    use: 'distance',
    label: 'Suction pipe length',
    hint: 'Strainer to pump, drop pipe and all',
    min: 0.1,
    max: 1000,
  },
  pumpRefFlowM3PerS: { use: 'flow', label: 'Flow when new', hint: 'Of this very pump', min: 0, max: 10 },
  pumpRefHeadM: {
    use: 'depth',
    label: 'Head when new',
    hint: 'Pumping level, lift and gauge pressure together',
    min: 0,
    max: 1000,
  },
  pumpRefAmps: { use: 'current', label: 'Current when new', hint: '', min: 0, max: 1000 },
  pumpRefVolts: { use: 'voltage', label: 'Voltage when new', hint: '', min: 0, max: 10_000 },
} as const satisfies Record<string, QuantityField>

export type WellQuantity = keyof typeof WELL_QUANTITIES
/** Their names in that order. */
export const QUANTITY_NAMES: readonly WellQuantity[] = [
  'wellDepthM',
  'casingBoreM',
  'casingOutsideM',
  'pitDiameterM',
  'pitLengthM',
  'pitWidthM',
  'gravelPorosity',
  'intakeDepthM',
  'liftM',
  'altitudeM',
  'demandM3PerS',
  'storageM3',
  'outletDepthM',
  'frostDepthM',
  'suctionBoreM',
  'suctionLengthM',
  'pumpRefFlowM3PerS',
  'pumpRefHeadM',
  'pumpRefAmps',
  'pumpRefVolts',
]

/** Those that stand with the pump and its pipes, and not with the well as built. */
export const PUMP_QUANTITIES: readonly WellQuantity[] = QUANTITY_NAMES.slice(
  QUANTITY_NAMES.indexOf('suctionBoreM'),
)

/** "in ft, or with its unit": what a bare number means to this reader. */
export function unitHint(use: Use, system: UnitSystem): string {
  return unitSymbol(displayUnit(use, system))
}
