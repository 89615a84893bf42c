import { z } from 'zod'
import { readVisitDays } from '@/lib/domain/place'
import { PIPE_MATERIALS, readFittings } from '@/lib/domain/pump'
import type { UnitSystem } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'
import { optionalCoordinate } from './coordinate'
import {
  type Amount,
  optionalDay,
  optionalMonthDay,
  optionalQuantity,
  optionalText,
  optionalTime,
} from './fields'
import { NO_MODELS, type StoredWell, wellFormTexts, wellTypedTexts } from './well-form-texts'
import { WELL_QUANTITIES, type WellQuantity } from './well-quantities'

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
    extra: before ? wellTypedTexts(before.well.extra) : {},
  }
}
