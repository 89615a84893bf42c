import { displayUnit, formatNumberPlain, fromSi, type UnitSystem, type Use } from '@/lib/domain/quantity'
import { chlorineDose, type DoseAnswer, type Product, type WaterToTreat } from '@/lib/domain/water/disinfect'
import type { KnownWater } from '@/lib/domain/water/known-water'
import { type Params, textParam } from './list-filters'
import { Reader } from './visit/reader'

/** The quantities of the calculator, in the units in which they are typed. */
export const DOSE_QUANTITIES = {
  bore: 'bore',
  outside: 'bore',
  column: 'depth',
  pitArea: 'area',
  porosity: 'share',
  dropBore: 'bore',
  dropLength: 'distance',
  linesBore: 'bore',
  linesLength: 'distance',
  tank: 'tank',
  contact: 'hours',
} as const satisfies Record<string, Use>
type Quantity = keyof typeof DOSE_QUANTITIES

const TEXTS = ['gravel', 'product', 'strength', 'density', 'target', 'ph', 'tabletG'] as const
type Text = (typeof TEXTS)[number]

const DOSE_FIELDS = [...(Object.keys(DOSE_QUANTITIES) as Quantity[]), ...TEXTS] as const

export type DoseReading = {
  /** Whether the form was sent; before that only what is known is filled in. */
  asked: boolean
  typed: Record<string, string>
  errors: Record<string, string>
  answer: DoseAnswer | null
  /** Whole tablets, where the label's grams a tablet were typed. */
  tablets: number | null
  /** What the step of the chain offers, once there is an answer. */
  step: Record<string, string>
}

const TARGET_FIRST = '100'
const CONTACT_FIRST = '12'

/** The calculator's form from an address: filled in from the register at first, reckoned once it was sent. */
export function readDose(params: Params, known: KnownWater, system: UnitSystem): DoseReading {
  const asked = textParam(params, 'reckon') !== ''
  const typed = asked ? typedOf(params) : firstTexts(known, system)
  const reader = new Reader(typed, system)
  if (!asked) return { asked, typed, errors: {}, answer: null, tablets: null, step: {} }
  const water = readWater(reader)
  const product = readProduct(reader)
  const targetMgL = plain(reader, 'target', 'Enter the chlorine wanted in the water, in mg/L')
  const contact = needed(reader, 'contact', 'Enter how long it is to stand, in hours')
  const ph = reader.text('ph') === '' ? null : plain(reader, 'ph', 'The pH is a number like 7.2')
  const { errors } = reader
  if (Object.keys(errors).length > 0 || !water || !product || targetMgL === null || contact === null)
    return { asked, typed, errors, answer: null, tablets: null, step: {} }
  const answer = chlorineDose(water, product, { targetMgL, ph, contactHours: contact / S_PER_H })
  return {
    asked,
    typed,
    errors,
    answer,
    tablets: tabletsOf(answer, reader),
    step: answer.kind === 'dose' ? stepTexts(answer, typed) : {},
  }
}

const S_PER_H = 3600

function typedOf(params: Params): Record<string, string> {
  return Object.fromEntries(DOSE_FIELDS.map((name) => [name, textParam(params, name).slice(0, 60)]))
}

function firstTexts(known: KnownWater, system: UnitSystem): Record<string, string> {
  const text = (field: Quantity, si: number | null) =>
    si === null ? '' : formatNumberPlain(si, displayUnit(DOSE_QUANTITIES[field], system))
  // Reckoned from a diameter, an area has no more figures than that was measured with.
  const areaUnit = displayUnit(DOSE_QUANTITIES.pitArea, system)
  const pitArea =
    known.pitAreaM2 === null ? '' : String(Number(fromSi(known.pitAreaM2, areaUnit).toPrecision(3)))
  return {
    bore: text('bore', known.casingBoreM),
    outside: text('outside', known.casingOutsideM),
    column: text('column', known.waterColumnM),
    gravel: known.pitAreaM2 === null ? '' : 'yes',
    pitArea,
    porosity: text('porosity', known.gravelPorosity),
    dropLength: text('dropLength', known.dropLengthM),
    tank: text('tank', known.tankM3),
    target: TARGET_FIRST,
    contact: CONTACT_FIRST,
  }
}

/** The water to be treated; blanks are asked for, and 0 is typed where there is none. */
function readWater(reader: Reader): WaterToTreat | null {
  const casingBoreM = needed(reader, 'bore', 'Enter the bore of the casing')
  const waterColumnM = needed(reader, 'column', 'Enter the depth of water, from its surface to the bottom')
  const gravel = reader.text('gravel')
  if (gravel !== 'yes' && gravel !== 'no')
    reader.refuse('gravel', 'Choose whether there is a gravel pack: its pores hold water too')
  const pitAreaM2 = gravel === 'yes' ? needed(reader, 'pitArea', 'Enter the area of the gravel pit') : null
  const gravelPorosity =
    gravel === 'yes'
      ? needed(reader, 'porosity', 'Enter the pores of the gravel, 30 to 40 % for washed gravel')
      : null
  const outside = reader.quantity('outside', 'bore')
  const none = 'enter 0 where there is none'
  const dropBoreM = needed(reader, 'dropBore', `Enter the bore of the drop pipe; ${none}`)
  const dropLengthM = needed(reader, 'dropLength', `Enter the length of the drop pipe; ${none}`)
  const linesBoreM = needed(reader, 'linesBore', `Enter the bore of the lines to the taps; ${none}`)
  const linesLengthM = needed(reader, 'linesLength', `Enter the length of the lines; ${none}`)
  const tankM3 = needed(reader, 'tank', `Enter the water in the tank; ${none}`)
  if (casingBoreM === null || waterColumnM === null || tankM3 === null) return null
  if (dropBoreM === null || dropLengthM === null || linesBoreM === null || linesLengthM === null) return null
  return {
    casingBoreM,
    casingOutsideM: outside?.si ?? null,
    waterColumnM,
    pitAreaM2,
    gravelPorosity,
    dropPipeBoreM: dropBoreM,
    dropPipeLengthM: dropLengthM,
    linesM3: (Math.PI / 4) * linesBoreM ** 2 * linesLengthM,
    tankM3,
  }
}

/** The product by its label: the strength is typed, never assumed. */
function readProduct(reader: Reader): Product | null {
  const kind = reader.text('product')
  const strength = plain(reader, 'strength', 'Read the strength in per cent on the label, and enter it')
  if (kind === 'liquid') return strength === null ? null : { kind, tradePercent: strength }
  if (kind === 'solid') return strength === null ? null : { kind, availablePercent: strength }
  if (kind === 'liquid-by-weight') {
    const densityKgPerL = plain(reader, 'density', 'Enter the density on the label or data sheet, in kg/L')
    return strength === null || densityKgPerL === null
      ? null
      : { kind, weightPercent: strength, densityKgPerL }
  }
  reader.refuse('product', 'Choose how the label gives the strength')
  return null
}

function tabletsOf(answer: DoseAnswer, reader: Reader): number | null {
  const grams = reader.text('tabletG') === '' ? null : plain(reader, 'tabletG', 'Grams a tablet is a number')
  if (answer.kind !== 'dose' || answer.product.unit !== 'g' || grams === null) return null
  return Math.ceil(answer.product.amount / grams)
}

function stepTexts(
  answer: Extract<DoseAnswer, { kind: 'dose' }>,
  typed: Record<string, string>,
): Record<string, string> {
  const { amount, unit } = answer.product
  return {
    doseTarget: typed.target ?? '',
    doseStrength: typed.strength ?? '',
    doseContact: typed.contact ?? '',
    ...(unit === 'mL' ? { doseVolume: `${(amount / 1000).toFixed(2)} L` } : { doseMass: amount.toFixed(0) }),
  }
}

function needed(reader: Reader, field: Quantity, message: string): number | null {
  if (reader.text(field) === '') reader.refuse(field, message)
  return reader.quantity(field, DOSE_QUANTITIES[field])?.si ?? null
}

/** A plain number above zero; a comma is refused, since it can mean two things. */
function plain(reader: Reader, field: Text, message: string): number | null {
  const text = reader.text(field)
  const value = /^\d+(?:\.\d+)?$/.test(text) ? Number(text) : Number.NaN
  if (value > 0) return value
  reader.refuse(field, message)
  return null
}
