import { z } from 'zod'
import { displayUnit, formatQuantity, type UnitSystem, type Use } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'
import { slug } from '@/lib/domain/upkeep/keys'
import { DUTY_LIBRARY, type DutyTemplate } from '@/lib/domain/upkeep/library'
import type { ConditionKind } from '@/lib/domain/upkeep/types'
import { offeredText, optionalDay, optionalQuantity } from './fields'

const NAME_MAX = 80
const MONTHS_MAX = 240
const RUN_S_MAX = 200_000 * 3600
const VOLUME_M3_MAX = 10_000_000
const BRUSH_M_MAX = 0.2
const DROP_PA_MAX = 2_000_000

const FLOW_M3_PER_S_MAX = 1
const LIFT_M_MAX = 9

/** The field of each measured condition on the form, with the quantity it holds. */
const CONDITION_FIELDS = [
  { kind: 'brush_length', field: 'brushLimit', use: 'brush', word: 'brush length' },
  { kind: 'pressure_drop', field: 'dropLimit', use: 'pressure', word: 'pressure drop' },
  { kind: 'flow_share', field: 'flowShareLimit', use: 'share', word: 'share of the flow' },
  { kind: 'flow', field: 'flowLimit', use: 'flow', word: 'flow' },
  { kind: 'lift_margin', field: 'liftLimit', use: 'lift', word: 'suction lift' },
] as const satisfies readonly { kind: ConditionKind; field: string; use: Use; word: string }[]

const months = z.string().transform((text, context): number | null => {
  const tidy = text.trim().replace(/ ?months?$/i, '')
  if (tidy === '') return null
  const value = Number(tidy)
  if (/^\d{1,3}$/.test(tidy) && value >= 1 && value <= MONTHS_MAX) return value
  context.addIssue({ code: 'custom', message: `The months must be a whole number from 1 to ${MONTHS_MAX}` })
  return z.NEVER
})

/**
 * The form of a duty. Each limit may be blank; the earliest of those set makes the duty fall due. Of the
 * measured conditions a duty holds one.
 */
export function dutyForm(system: UnitSystem, today: Day) {
  return z
    .object({
      name: z
        .string()
        .trim()
        .max(NAME_MAX, `The name must be ${NAME_MAX} characters or fewer`)
        .refine(
          (name) => /[\p{L}\p{N}]/u.test(name),
          'Enter what is to be done, such as Change sediment cartridge',
        ),
      consequence: z.enum(['health', 'supply', 'wear'], 'Choose what suffers when this is left undone'),
      everyMonths: months,
      everyRunS: aboveZero(optionalQuantity('hours', system, 0, RUN_S_MAX), 'run hours'),
      everyM3: aboveZero(optionalQuantity('tank', system, 0, VOLUME_M3_MAX), 'volume'),
      brushLimit: aboveZero(optionalQuantity('brush', system, 0, BRUSH_M_MAX), 'shortest brush length'),
      dropLimit: aboveZero(optionalQuantity('pressure', system, 0, DROP_PA_MAX), 'greatest pressure drop'),
      flowShareLimit: aboveZero(optionalQuantity('share', system, 0, 1), 'least share of the flow'),
      flowLimit: aboveZero(optionalQuantity('flow', system, 0, FLOW_M3_PER_S_MAX), 'least flow'),
      liftLimit: optionalQuantity('lift', system, 0, LIFT_M_MAX),
      lastDoneOn: optionalDay('day it was last done', today),
    })
    .superRefine((duty, context) => {
      const set = CONDITION_FIELDS.filter(({ field }) => duty[field] !== null)
      const second = set[1]
      if (!second) return
      const message = `One duty holds one measured condition: leave all but one of ${set.map(({ word }) => word).join(', ')} blank`
      context.addIssue({ code: 'custom', path: [second.field], message })
    })
}

function aboveZero(field: ReturnType<typeof optionalQuantity>, what: string) {
  return field.refine(
    (amount) => amount === null || amount.si > 0,
    `The ${what} must be more than 0, or blank`,
  )
}

export type DutyFormValue = z.output<ReturnType<typeof dutyForm>>

/** The duty that an accepted form states. */
export function dutyFieldsOf(value: DutyFormValue) {
  const typed: Record<string, string> = {}
  if (value.everyRunS) typed.everyRunS = value.everyRunS.typed
  if (value.everyM3) typed.everyM3 = value.everyM3.typed
  const set = CONDITION_FIELDS.find(({ field }) => value[field] !== null)
  const condition: ConditionKind | null = set?.kind ?? null
  const limit = set ? value[set.field] : null
  if (limit) typed.conditionLimitSi = limit.typed
  return {
    key: slug(value.name),
    name: value.name,
    consequence: value.consequence,
    everyMonths: value.everyMonths,
    everyRunS: value.everyRunS?.si ?? null,
    everyM3: value.everyM3?.si ?? null,
    condition,
    conditionLimitSi: limit?.si ?? null,
    lastDoneOn: value.lastDoneOn,
    typed,
  }
}

/** What the form needs of a stored duty. `typed` is the JSON text of the row. */
export type StoredDuty = {
  name: string
  consequence: string
  everyMonths: number | null
  everyRunS: number | null
  everyM3: number | null
  condition: string | null
  conditionLimitSi: number | null
  lastDoneOn: Day | null
  typed: string
}

/** The texts with which the form of a stored duty opens. */
export function dutyFormTexts(duty: StoredDuty, system: UnitSystem): Record<string, string> {
  const typed = z.record(z.string(), z.string()).parse(JSON.parse(duty.typed))
  const limits = CONDITION_FIELDS.map(({ kind, field, use }) => [
    field,
    duty.condition === kind ? offeredText(duty.conditionLimitSi, typed.conditionLimitSi, use, system) : '',
  ])
  return {
    name: duty.name,
    consequence: duty.consequence,
    everyMonths: duty.everyMonths === null ? '' : String(duty.everyMonths),
    everyRunS: offeredText(duty.everyRunS, typed.everyRunS, 'hours', system),
    everyM3: offeredText(duty.everyM3, typed.everyM3, 'tank', system),
    ...Object.fromEntries(limits),
    lastDoneOn: duty.lastDoneOn ?? '',
  }
}

/** The library's duty of that key, or null. */
export function templateOfKey(key: string): DutyTemplate | null {
  return DUTY_LIBRARY.find((template) => slug(template.name) === key) ?? null
}

/** The texts with which the form opens for a duty of the library. */
export function templateTexts(template: DutyTemplate, system: UnitSystem): Record<string, string> {
  const { name, consequence, everyMonths, everyRunH, everyM3, condition } = template
  // The library's round figures are shown as they stand, in this reader's units.
  const limits = CONDITION_FIELDS.map(({ kind, field, use }) => [
    field,
    condition?.kind === kind ? plainly(condition.limitSi, use, system) : '',
  ])
  return {
    name,
    consequence,
    everyMonths: everyMonths === null ? '' : String(everyMonths),
    everyRunS: everyRunH === null ? '' : String(everyRunH),
    everyM3: everyM3 === null ? '' : plainly(everyM3, 'tank', system),
    ...Object.fromEntries(limits),
    lastDoneOn: '',
  }
}

/** A round figure as the field shows it: rounded as on screen, without the unit that stands beside the field. */
function plainly(si: number, use: Use, system: UnitSystem): string {
  const shown = formatQuantity(si, use, system)
  return String(Number(/^-?[\d,.]+/.exec(shown)?.[0].replaceAll(',', '')))
}

const LIMIT_SAID: Readonly<Record<ConditionKind, (limit: string) => string>> = {
  brush_length: (limit) => `at a brush length of ${limit}`,
  pressure_drop: (limit) => `at a pressure drop of ${limit}`,
  flow_share: (limit) => `at ${limit} of the flow when new`,
  flow: (limit) => `at a flow of ${limit} at the head and voltage when new`,
  lift_margin: (limit) => `with ${limit} of suction lift left`,
}

/** The limits of a duty in words: "every 6 months, 1,000 h or at a pressure drop of 20 psi"; null where none is set. */
export function limitWords(
  duty: Omit<StoredDuty, 'name' | 'consequence' | 'lastDoneOn' | 'typed'>,
  system: UnitSystem,
): string | null {
  const words = [
    ...(duty.everyMonths === null ? [] : [`${duty.everyMonths} month${duty.everyMonths === 1 ? '' : 's'}`]),
    ...(duty.everyRunS === null ? [] : [`${formatQuantity(duty.everyRunS, 'hours', system)} of running`]),
    ...(duty.everyM3 === null ? [] : [`${formatQuantity(duty.everyM3, 'tank', system)} pumped`]),
  ]
  const every = words.length === 0 ? [] : [`every ${words.join(' or ')}`]
  const { conditionLimitSi: limit } = duty
  const said = CONDITION_FIELDS.find(({ kind }) => kind === duty.condition)
  if (limit !== null && said) every.push(LIMIT_SAID[said.kind](formatQuantity(limit, said.use, system)))
  return every.length === 0 ? null : every.join(', or ')
}

/** The unit in which a bare number of each limit is read. */
export function limitUnits(
  system: UnitSystem,
): Record<'volume' | 'brush' | 'pressure' | 'flow' | 'lift', string> {
  return {
    flow: displayUnit('flow', system),
    lift: displayUnit('lift', system),
    volume: displayUnit('tank', system),
    brush: displayUnit('brush', system),
    pressure: displayUnit('pressure', system),
  }
}
