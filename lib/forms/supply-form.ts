import { z } from 'zod'
import { SUN_TABLES, type SupplyFacts, USE_NAMES, type UseName } from '@/lib/domain/logbook/supply-facts'
import { displayUnit, type UnitSystem, unitSymbol } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'
import { offeredText, optionalQuantity, optionalText } from './fields'

/** Larger than any pump or demand of such a well; a greater number is in another unit. */
const FLOW_M3_PER_S_MAX = 0.02
const PANEL_W_MAX = 20_000

function blankOr<T extends string>(words: readonly T[], message: string) {
  return z.string().transform((text, context): T | null => {
    const word = words.find((known) => known === text)
    if (word !== undefined || text === '') return word ?? null
    context.addIssue({ code: 'custom', message })
    return z.NEVER
  })
}

const angle = (what: string, least: number, most: number) =>
  z.string().transform((text, context): number | null => {
    const tidy = text.trim().replace(/°$/, '').replace('−', '-')
    if (tidy === '') return null
    const value = Number(tidy)
    if (/^-?\d{1,3}(\.\d+)?$/.test(tidy) && value >= least && value <= most) return value
    context.addIssue({ code: 'custom', message: `The ${what} must be degrees from ${least} to ${most}` })
    return z.NEVER
  })

const monthNumber = z.string().transform((text, context): number | null => {
  if (text === '') return null
  const value = Number(text)
  if (Number.isInteger(value) && value >= 1 && value <= 12) return value
  context.addIssue({ code: 'custom', message: 'Choose a month, or all the year' })
  return z.NEVER
})

/** Twelve numbers in one field, January first. */
const twelve = z.string().transform((text, context): number[] | null => {
  if (text.trim() === '') return null
  const values = text
    .trim()
    .split(/[\s;]+|,\s+/)
    .map(Number)
  if (values.length === 12 && values.every((value) => value >= 0 && Number.isFinite(value))) return values
  context.addIssue({
    code: 'custom',
    message: 'The sun table must be twelve numbers from January to December, set off by blanks',
  })
  return z.NEVER
})

/** The form of what drives a well's pump and what water is asked for. All but the drive may be blank. */
export function supplyForm(system: UnitSystem) {
  const daily = optionalQuantity('demand', system, 0, FLOW_M3_PER_S_MAX)
  return z
    .object({
      drive: z.enum(['sun', 'mains'], 'Choose what drives the pump'),
      flow: optionalQuantity('flow', system, 0, FLOW_M3_PER_S_MAX),
      panel: optionalQuantity('power', system, 0, PANEL_W_MAX),
      tilt: angle('tilt', 0, 90),
      azimuth: angle('direction', -180, 180),
      pumpPlace: blankOr(['ground', 'water'], 'Choose where the pump stands, or that it is not known'),
      sunKind: blankOr(SUN_TABLES, 'Choose what the sun table is about, or none'),
      sunValues: twelve,
      sunSource: optionalText('source', 200),
      houseDaily: daily,
      houseFrom: monthNumber,
      houseTo: monthNumber,
      stockDaily: daily,
      stockFrom: monthNumber,
      stockTo: monthNumber,
      gardenDaily: daily,
      gardenFrom: monthNumber,
      gardenTo: monthNumber,
    })
    .superRefine((form, context) => {
      const complain = (path: string, message: string) =>
        context.addIssue({ code: 'custom', path: [path], message })
      if (form.flow && form.flow.si === 0) complain('flow', 'A flow of 0 drives no supply: leave it blank')
      if (form.panel && form.panel.si === 0) complain('panel', 'Panels of 0 W are none: leave it blank')
      if ((form.sunKind === null) !== (form.sunValues === null)) {
        complain(
          form.sunKind === null ? 'sunKind' : 'sunValues',
          'A sun table needs both its twelve numbers and what they are',
        )
      }
      if (form.sunValues !== null && form.sunSource === null) {
        complain('sunSource', 'Say where the sun table comes from')
      }
      for (const name of USE_NAMES) {
        if ((form[`${name}From`] === null) !== (form[`${name}To`] === null)) {
          complain(
            form[`${name}From`] === null ? `${name}From` : `${name}To`,
            'Choose both months, or neither',
          )
        }
      }
    })
}

type SupplyFormValue = z.output<ReturnType<typeof supplyForm>>

/** The facts that an accepted form states. */
export function supplyFactsOfForm(form: SupplyFormValue, today: Day): SupplyFacts {
  const { drive, flow, panel, tilt, azimuth, pumpPlace, sunKind, sunValues, sunSource } = form
  return {
    drive,
    ...(flow ? { flow } : {}),
    ...(panel ? { panel } : {}),
    ...(tilt === null ? {} : { tiltDeg: tilt }),
    ...(azimuth === null ? {} : { azimuthDeg: azimuth }),
    ...(pumpPlace ? { pumpPlace } : {}),
    ...(sunKind && sunValues && sunSource
      ? { sun: { kind: sunKind, values: sunValues, source: sunSource } }
      : {}),
    uses: USE_NAMES.flatMap((name) => {
      const daily = form[`${name}Daily`]
      return daily ? [{ name, daily, months: monthsOf(form[`${name}From`], form[`${name}To`]) }] : []
    }),
    setOn: today,
  }
}

/** The months from one to another, both with it and round the year's end; all of them where none is named. */
function monthsOf(from: number | null, to: number | null): number[] {
  const count = from === null || to === null ? 12 : ((to - from + 12) % 12) + 1
  return Array.from({ length: count }, (_, i) => (((from ?? 1) - 1 + i) % 12) + 1)
}

/** The texts with which the form of stored facts opens; all blank for none. */
export function supplyFormTexts(facts: SupplyFacts | null, system: UnitSystem): Record<string, string> {
  const texts: Record<string, string> = {
    drive: facts?.drive ?? '',
    flow: offeredText(facts?.flow?.si ?? null, facts?.flow?.typed, 'flow', system),
    panel: offeredText(facts?.panel?.si ?? null, facts?.panel?.typed, 'power', system),
    tilt: String(facts?.tiltDeg ?? ''),
    azimuth: String(facts?.azimuthDeg ?? ''),
    pumpPlace: facts?.pumpPlace ?? '',
    sunKind: facts?.sun?.kind ?? '',
    sunValues: facts?.sun?.values.join(' ') ?? '',
    sunSource: facts?.sun?.source ?? '',
  }
  for (const name of USE_NAMES) Object.assign(texts, textsOfUse(facts, name, system))
  return texts
}

function textsOfUse(facts: SupplyFacts | null, name: UseName, system: UnitSystem): Record<string, string> {
  const use = facts?.uses.find((one) => one.name === name)
  const seasonal = use !== undefined && use.months.length < 12
  return {
    [`${name}Daily`]: offeredText(use?.daily.si ?? null, use?.daily.typed, 'demand', system),
    [`${name}From`]: seasonal ? String(use.months[0]) : '',
    [`${name}To`]: seasonal ? String(use.months.at(-1)) : '',
  }
}

/** The unit in which a bare number of each field is read. */
export const supplyUnits = (system: UnitSystem) => ({
  flow: unitSymbol(displayUnit('flow', system)),
  power: unitSymbol(displayUnit('power', system)),
  demand: unitSymbol(displayUnit('demand', system)),
  tank: unitSymbol(displayUnit('tank', system)),
})
export type SupplyUnits = ReturnType<typeof supplyUnits>
