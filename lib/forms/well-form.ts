import { z } from 'zod'
import { readVisitDays } from '@/lib/domain/place'
import { PIPE_MATERIALS, readFittings } from '@/lib/domain/pump'
import { displayUnit, type UnitSystem, type Use, unitSymbol } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'
import { optionalCoordinate } from './coordinate'
import {
  type Amount,
  offeredText,
  optionalDay,
  optionalMonthDay,
  optionalQuantity,
  optionalText,
  optionalTime,
} from './fields'

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
const QUANTITY_NAMES: readonly WellQuantity[] = [
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

const LABEL_MAX = 60

/** Fittings in words that the reckoning knows; blank for unknown. */
const fittings = optionalText('fittings', 200).superRefine((text, context) => {
  const reading = text === null ? null : readFittings(text)
  if (reading?.kind === 'problem') context.addIssue({ code: 'custom', message: reading.message })
})

/** Days of the week on which visits are wished; blank where every day suits. */
const optionalVisitDays = z.string().transform((text, context): string | null => {
  const reading = readVisitDays(text)
  if (reading.ok) return reading.stored
  context.addIssue({ code: 'custom', message: reading.message })
  return z.NEVER
})

/** The register form. `system` is what a bare number is read in; `today` the last day a well can have been built. */
export function wellForm(system: UnitSystem, today: Day) {
  const quantity = (name: WellQuantity) => {
    const { use, min, max } = WELL_QUANTITIES[name]
    return optionalQuantity(use, system, min, max)
  }
  return z
    .object({
      label: z
        .string()
        .trim()
        .min(1, 'Enter the label that you know the well by, such as W012')
        .max(LABEL_MAX, `The label must be ${LABEL_MAX} characters or fewer`),
      name: optionalText('name', 120),
      area: optionalText('area', 80),
      ownerName: optionalText('owner', 120),
      ownerPhone: optionalText('phone number', 60),
      ownerEmail: optionalText('email address', 254),
      latitude: optionalCoordinate('latitude'),
      longitude: optionalCoordinate('longitude'),
      access: optionalText('way in', 2000),
      visitFrom: optionalTime('hour from which somebody may come'),
      visitUntil: optionalTime('hour by which work must be over'),
      visitDays: optionalVisitDays,
      gateCode: optionalText('gate code', 60),
      hazards: optionalText('hazards', 500),
      installedOn: optionalDay('day of installation', today),
      wellDepthM: quantity('wellDepthM'),
      casingBoreM: quantity('casingBoreM'),
      casingOutsideM: quantity('casingOutsideM'),
      pitDiameterM: quantity('pitDiameterM'),
      pitLengthM: quantity('pitLengthM'),
      pitWidthM: quantity('pitWidthM'),
      gravelPorosity: quantity('gravelPorosity'),
      intakeDepthM: quantity('intakeDepthM'),
      liftM: quantity('liftM'),
      altitudeM: quantity('altitudeM'),
      demandM3PerS: quantity('demandM3PerS'),
      storageM3: quantity('storageM3'),
      outletDepthM: quantity('outletDepthM'),
      frostDepthM: quantity('frostDepthM'),
      pumpModel: optionalText('pump model', 120),
      cartridgeModel: optionalText('cartridge model', 120),
      suctionBoreM: quantity('suctionBoreM'),
      suctionLengthM: quantity('suctionLengthM'),
      suctionMaterial: z
        .enum(['', ...PIPE_MATERIALS], 'Choose what the pipe is made of, or leave it open')
        .transform((text) => (text === '' ? null : text)),
      suctionFittings: fittings,
      pumpRefOn: optionalDay('day on which the pump was new', today),
      pumpRefFlowM3PerS: quantity('pumpRefFlowM3PerS'),
      pumpRefHeadM: quantity('pumpRefHeadM'),
      pumpRefAmps: quantity('pumpRefAmps'),
      pumpRefVolts: quantity('pumpRefVolts'),
      closedFrom: optionalMonthDay('first day of the closed season'),
      closedTo: optionalMonthDay('last day of the closed season'),
      closedWhy: optionalText('reason', 120),
      notes: optionalText('notes', 4000),
      retiredOn: optionalDay('day of retirement', today),
    })
    .superRefine((well, context) => {
      const complain = (path: string, message: string) =>
        context.addIssue({ code: 'custom', path: [path], message })
      if (well.closedFrom !== null && well.closedTo === null)
        complain('closedTo', 'Enter the last day of the closed season too')
      if (well.closedTo !== null && well.closedFrom === null)
        complain('closedFrom', 'Enter the first day of the closed season too')
      if (endsTooSoon(well.visitFrom, well.visitUntil))
        complain('visitUntil', 'Work must be over after the hour from which somebody may come')
      if (isAlone(well.latitude, well.longitude))
        complain('longitude', 'Enter the longitude too, or leave both blank')
      if (isAlone(well.longitude, well.latitude))
        complain('latitude', 'Enter the latitude too, or leave both blank')
      if (smaller(well.casingOutsideM, well.casingBoreM))
        complain('casingOutsideM', 'The casing cannot be narrower outside than its bore')
      if (smaller(well.pitDiameterM, well.casingOutsideM))
        complain('pitDiameterM', 'The pit cannot be narrower than the casing in it')
      if (smaller(well.wellDepthM, well.intakeDepthM))
        complain('intakeDepthM', 'The intake cannot be deeper than the well')
      if (well.retiredOn !== null && well.installedOn !== null && well.retiredOn < well.installedOn) {
        complain('retiredOn', 'A well cannot be retired before it was installed')
      }
      if ((well.ownerPhone !== null || well.ownerEmail !== null) && well.ownerName === null) {
        complain('ownerName', 'Enter whose phone or email this is')
      }
    })
}

/** Times of day as HH:MM sort as text. */
const endsTooSoon = (from: string | null, until: string | null) =>
  from !== null && until !== null && until <= from

const isAlone = (a: unknown, b: unknown) => a !== null && b === null

function smaller(a: Amount | null, b: Amount | null): boolean {
  return a !== null && b !== null && a.si < b.si
}

export type WellFormValue = z.output<ReturnType<typeof wellForm>>

/** What was typed for each quantity of a stored well, from the JSON text of its row. */
export function wellTypedTexts(json: string): Record<string, string> {
  return textsSchema.parse(JSON.parse(json))
}

/** What the form needs of a stored well. `typed` and `extra` are the JSON texts of the row. */
export type StoredWell = Record<WellQuantity | 'latitude' | 'longitude', number | null> & {
  label: string
  name: string | null
  area: string | null
  access: string | null
  visitFrom: string | null
  visitUntil: string | null
  visitDays: string | null
  gateCode: string | null
  hazards: string | null
  notes: string | null
  installedOn: Day | null
  closedFrom: string | null
  closedTo: string | null
  closedWhy: string | null
  suctionMaterial: string | null
  suctionFittings: string | null
  pumpRefOn: Day | null
  retiredOn: Day | null
  typed: string
  extra: string
}

const NO_MODELS: NamedModels = { pump: null, cartridge: null }

type Owner = { name: string; phone: string | null; email: string | null } | null

const textsSchema = z.record(z.string(), z.string())

/** Names of the models that a well names. */
export type NamedModels = { pump: string | null; cartridge: string | null }

/** The texts with which the form of a stored well opens: sent back untouched, they change nothing. */
export function wellFormTexts(
  well: StoredWell,
  owner: Owner,
  system: UnitSystem,
  models: NamedModels,
): Record<string, string> {
  const typed = wellTypedTexts(well.typed)
  const texts: Record<string, string> = {
    label: well.label,
    name: well.name ?? '',
    area: well.area ?? '',
    ownerName: owner?.name ?? '',
    ownerPhone: owner?.phone ?? '',
    ownerEmail: owner?.email ?? '',
    latitude: coordinateText(well.latitude, typed.latitude),
    longitude: coordinateText(well.longitude, typed.longitude),
    access: well.access ?? '',
    visitFrom: well.visitFrom ?? '',
    visitUntil: well.visitUntil ?? '',
    visitDays: well.visitDays ?? '',
    gateCode: well.gateCode ?? '',
    hazards: well.hazards ?? '',
    installedOn: well.installedOn ?? '',
    closedFrom: well.closedFrom ?? '',
    closedTo: well.closedTo ?? '',
    closedWhy: well.closedWhy ?? '',
    pumpModel: models.pump ?? '',
    cartridgeModel: models.cartridge ?? '',
    suctionMaterial: well.suctionMaterial ?? '',
    suctionFittings: well.suctionFittings ?? '',
    pumpRefOn: well.pumpRefOn ?? '',
    notes: well.notes ?? '',
    retiredOn: well.retiredOn ?? '',
  }
  for (const name of QUANTITY_NAMES) {
    texts[name] = offeredText(well[name], typed[name], WELL_QUANTITIES[name].use, system)
  }
  return texts
}

/** As typed, else to six decimals, which is a hand's breadth on the ground. */
function coordinateText(degrees: number | null, typed: string | undefined): string {
  return degrees === null ? '' : (typed ?? String(Number(degrees.toFixed(6))))
}

/**
 * The register fields of a form that was accepted. `before` is the well as the form found it: an amount whose text
 * was left as offered keeps its value to the last digit, and what an imported file said beyond the form is kept.
 */
export function wellFieldsOf(
  value: WellFormValue,
  typedNow: Readonly<Record<string, string>>,
  before: { well: StoredWell; system: UnitSystem } | null,
) {
  const typed: Record<string, string> = {}
  const stored = before ? wellTypedTexts(before.well.typed) : {}
  const offered = before ? wellFormTexts(before.well, null, before.system, NO_MODELS) : {}
  const amount = (name: WellQuantity | 'latitude' | 'longitude'): number | null => {
    const was = before?.well[name] ?? null
    const untouched = was !== null && typedNow[name]?.trim() === offered[name]?.trim()
    const given = value[name]
    const text = untouched ? stored[name] : given?.typed
    if (text !== undefined) typed[name] = text
    return untouched ? was : (given?.si ?? null)
  }
  return {
    ...value,
    latitude: amount('latitude'),
    longitude: amount('longitude'),
    wellDepthM: amount('wellDepthM'),
    casingBoreM: amount('casingBoreM'),
    casingOutsideM: amount('casingOutsideM'),
    pitDiameterM: amount('pitDiameterM'),
    pitLengthM: amount('pitLengthM'),
    pitWidthM: amount('pitWidthM'),
    gravelPorosity: amount('gravelPorosity'),
    intakeDepthM: amount('intakeDepthM'),
    liftM: amount('liftM'),
    altitudeM: amount('altitudeM'),
    demandM3PerS: amount('demandM3PerS'),
    storageM3: amount('storageM3'),
    outletDepthM: amount('outletDepthM'),
    frostDepthM: amount('frostDepthM'),
    suctionBoreM: amount('suctionBoreM'),
    suctionLengthM: amount('suctionLengthM'),
    pumpRefFlowM3PerS: amount('pumpRefFlowM3PerS'),
    pumpRefHeadM: amount('pumpRefHeadM'),
    pumpRefAmps: amount('pumpRefAmps'),
    pumpRefVolts: amount('pumpRefVolts'),
    typed,
    extra: before ? textsSchema.parse(JSON.parse(before.well.extra)) : {},
  }
}
