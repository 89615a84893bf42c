import { z } from 'zod'
import { type CurvePoint, type PumpPower, type PumpType, pumpCurve } from '@/lib/domain/pump'
import { dimensionOf, displayUnit, parseQuantity, type UnitSystem, type Use } from '@/lib/domain/quantity'
import { offeredText, optionalQuantity, optionalText } from './fields'

const BRUSHES_MAX = 8

const modelName = z
  .string()
  .trim()
  .max(120, 'The name must be 120 characters or fewer')
  .refine((name) => /[\p{L}\p{N}]/u.test(name), 'Enter the name that you know the model by')

const retired = z.string().transform((text) => text === '1')

const TYPES: readonly PumpType[] = ['centrifugal', 'displacement']
const POWERS: readonly PumpPower[] = ['sun', 'mains']

const oneOf = <T extends string>(known: readonly T[], message: string) =>
  z.string().transform((text, context): T | null => {
    const found = known.find((each) => each === text)
    if (text !== '' && found === undefined) context.addIssue({ code: 'custom', message })
    return found ?? null
  })

const count = z.string().transform((text, context): number | null => {
  if (text.trim() === '') return null
  const value = Number(text)
  if (Number.isInteger(value) && value >= 1 && value <= BRUSHES_MAX) return value
  context.addIssue({
    code: 'custom',
    message: `The number of brushes is a whole number from 1 to ${BRUSHES_MAX}`,
  })
  return z.NEVER
})

const WARRANTY_MAX = 600

const warrantyMonths = z.string().transform((text, context): number | null => {
  if (text.trim() === '') return null
  const months = Number(text.trim().replace(/ ?months?$/i, ''))
  if (Number.isInteger(months) && months >= 1 && months <= WARRANTY_MAX) return months
  context.addIssue({
    code: 'custom',
    message: `The warranty is a whole number of months from 1 to ${WARRANTY_MAX}`,
  })
  return z.NEVER
})

/** The form of a pump model: its sheet, as far as it is known. */
export function pumpModelForm(system: UnitSystem) {
  return z
    .object({
      name: modelName,
      type: oneOf(TYPES, 'Choose how the pump works, or leave it open'),
      power: oneOf(POWERS, 'Choose what drives the pump, or leave it open'),
      brushNewM: optionalQuantity('brush', system, 0, 0.2),
      brushMinimumM: optionalQuantity('brush', system, 0, 0.2),
      brushCount: count,
      brushPart: optionalText('brush set', 120),
      npshRequiredM: optionalQuantity('lift', system, 0, 9.5),
      referenceVolts: optionalQuantity('voltage', system, 1, 10_000),
      warrantyMonths,
      sheet: sheetField(system),
      retired,
    })
    .superRefine((model, context) => {
      const { brushNewM, brushMinimumM } = model
      if (brushNewM && brushMinimumM && brushMinimumM.si >= brushNewM.si) {
        const message = 'The least length must be shorter than a new brush'
        context.addIssue({ code: 'custom', path: ['brushMinimumM'], message })
      }
    })
}

/** The form of a cartridge model. */
export function cartridgeModelForm(system: UnitSystem) {
  return z.object({
    name: modelName,
    terminalDropPa: optionalQuantity('pressure', system, 0, 2_000_000),
    referenceFlowM3PerS: optionalQuantity('flow', system, 0, 1),
    oRing: optionalText('O-ring', 120),
    warrantyMonths,
    retired,
  })
}

type PumpValue = z.output<ReturnType<typeof pumpModelForm>>
type CartridgeValue = z.output<ReturnType<typeof cartridgeModelForm>>

/** The register's fields of an accepted pump model. A zero is no length, head or volt: it is left open. */
export function pumpModelFieldsOf(value: PumpValue) {
  const { brushNewM, brushMinimumM, npshRequiredM, referenceVolts, sheet, ...rest } = value
  const amounts = { brushNewM, brushMinimumM, npshRequiredM, referenceVolts }
  return {
    ...rest,
    brushNewM: brushNewM?.si || null,
    brushMinimumM: brushMinimumM?.si || null,
    npshRequiredM: npshRequiredM?.si ?? null,
    referenceVolts: referenceVolts?.si ?? null,
    sheet: sheet.points,
    typed: { ...typedOf(amounts), ...(sheet.typed === '' ? {} : { sheet: sheet.typed }) },
  }
}

export function cartridgeModelFieldsOf({ terminalDropPa, referenceFlowM3PerS, ...rest }: CartridgeValue) {
  return {
    ...rest,
    terminalDropPa: terminalDropPa?.si || null,
    referenceFlowM3PerS: referenceFlowM3PerS?.si || null,
    typed: typedOf({ terminalDropPa, referenceFlowM3PerS }),
  }
}

const typedOf = (amounts: Record<string, { typed: string } | null>): Record<string, string> =>
  Object.fromEntries(
    Object.entries(amounts).flatMap(([name, amount]) => (amount ? [[name, amount.typed]] : [])),
  )

/** A row of the register, as far as the form needs it. */
type StoredPump = {
  name: string
  type: string | null
  power: string | null
  brushNewM: number | null
  brushMinimumM: number | null
  brushCount: number | null
  brushPart: string | null
  warrantyMonths: number | null
  npshRequiredM: number | null
  referenceVolts: number | null
  sheet: string
  typed: string
  retired: boolean
}
type StoredCartridge = {
  name: string
  terminalDropPa: number | null
  referenceFlowM3PerS: number | null
  oRing: string | null
  warrantyMonths: number | null
  typed: string
  retired: boolean
}

const textsSchema = z.record(z.string(), z.string())
const pointsSchema = z.array(z.object({ flowM3PerS: z.number(), headM: z.number() }))

/** The texts with which the form of a stored model opens. */
export function pumpModelTexts(row: StoredPump, system: UnitSystem): Record<string, string> {
  const typed = textsSchema.parse(JSON.parse(row.typed))
  const points = pointsSchema.parse(JSON.parse(row.sheet))
  return {
    name: row.name,
    type: row.type ?? '',
    power: row.power ?? '',
    brushNewM: offeredText(row.brushNewM, typed.brushNewM, 'brush', system),
    brushMinimumM: offeredText(row.brushMinimumM, typed.brushMinimumM, 'brush', system),
    brushCount: row.brushCount === null ? '' : String(row.brushCount),
    brushPart: row.brushPart ?? '',
    npshRequiredM: offeredText(row.npshRequiredM, typed.npshRequiredM, 'lift', system),
    referenceVolts: offeredText(row.referenceVolts, typed.referenceVolts, 'voltage', system),
    sheet: sheetText(points, system),
    warrantyMonths: row.warrantyMonths === null ? '' : String(row.warrantyMonths),
    retired: row.retired ? '1' : '',
  }
}

export function cartridgeModelTexts(row: StoredCartridge, system: UnitSystem): Record<string, string> {
  const typed = textsSchema.parse(JSON.parse(row.typed))
  return {
    name: row.name,
    terminalDropPa: offeredText(row.terminalDropPa, typed.terminalDropPa, 'pressure', system),
    referenceFlowM3PerS: offeredText(row.referenceFlowM3PerS, typed.referenceFlowM3PerS, 'flow', system),
    oRing: row.oRing ?? '',
    warrantyMonths: row.warrantyMonths === null ? '' : String(row.warrantyMonths),
    retired: row.retired ? '1' : '',
  }
}

const sheetText = (points: readonly CurvePoint[], system: UnitSystem): string =>
  points
    .map(
      ({ flowM3PerS, headM }) =>
        `${offeredText(flowM3PerS, undefined, 'flow', system)}; ${offeredText(headM, undefined, 'depth', system)}`,
    )
    .join('\n')

const POINTS_MAX = 20

/** Points of a sheet, one a line: flow; head. They must fall, as the head of every pump does where its flow grows. */
function sheetField(system: UnitSystem) {
  return z.string().transform((text, context): { points: CurvePoint[]; typed: string } => {
    const complain = (message: string) => {
      context.addIssue({ code: 'custom', message })
      return z.NEVER
    }
    const lines = text
      .split(/\r?\n/)
      .map((line) => line.trim())
      .filter(Boolean)
    if (lines.length > POINTS_MAX) return complain(`A sheet has at most ${POINTS_MAX} points here`)
    const points: CurvePoint[] = []
    for (const [i, line] of lines.entries()) {
      const [flowText = '', headText = '', ...more] = line.split(/[;\t]/).map((piece) => piece.trim())
      const flow = more.length === 0 ? amountOf(flowText, 'flow', system) : null
      const head = amountOf(headText, 'depth', system)
      if (flow === null || head === null || head <= 0) {
        return complain(`Line ${i + 1} ("${line.slice(0, 40)}") must read: flow; head`)
      }
      points.push({ flowM3PerS: flow, headM: head })
    }
    if (points.length > 1 && pumpCurve(points) === null) {
      return complain('By these points the head grows with the flow: were the two swapped?')
    }
    return { points, typed: lines.join('\n') }
  })
}

function amountOf(text: string, use: Use, system: UnitSystem): number | null {
  const unit = displayUnit(use, system)
  const reading = parseQuantity(text, { dimension: dimensionOf(unit), unit, locale: 'en' })
  return reading.kind === 'value' ? reading.quantity.si : null
}
