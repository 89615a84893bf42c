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
 * two measured conditions a duty holds one.
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
      lastDoneOn: optionalDay('day it was last done', today),
    })
    .superRefine((duty, context) => {
      if (duty.brushLimit === null || duty.dropLimit === null) return
      const message =
        'One duty holds one measured condition: leave the brush length or the pressure drop blank'
      context.addIssue({ code: 'custom', path: ['dropLimit'], message })
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
  const { brushLimit, dropLimit } = value
  const condition = brushLimit ? ('brush_length' as const) : dropLimit ? ('pressure_drop' as const) : null
  const limit = brushLimit ?? dropLimit
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
  const limitOf = (condition: ConditionKind, use: 'brush' | 'pressure') =>
    duty.condition === condition
      ? offeredText(duty.conditionLimitSi, typed.conditionLimitSi, use, system)
      : ''
  return {
    name: duty.name,
    consequence: duty.consequence,
    everyMonths: duty.everyMonths === null ? '' : String(duty.everyMonths),
    everyRunS: offeredText(duty.everyRunS, typed.everyRunS, 'hours', system),
    everyM3: offeredText(duty.everyM3, typed.everyM3, 'tank', system),
    brushLimit: limitOf('brush_length', 'brush'),
    dropLimit: limitOf('pressure_drop', 'pressure'),
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
  const limitOf = (kind: ConditionKind, use: 'brush' | 'pressure') =>
    condition?.kind === kind ? plainly(condition.limitSi, use, system) : ''
  return {
    name,
    consequence,
    everyMonths: everyMonths === null ? '' : String(everyMonths),
    everyRunS: everyRunH === null ? '' : String(everyRunH),
    everyM3: everyM3 === null ? '' : plainly(everyM3, 'tank', system),
    brushLimit: limitOf('brush_length', 'brush'),
    dropLimit: limitOf('pressure_drop', 'pressure'),
    lastDoneOn: '',
  }
}

/** A round figure as the field shows it: rounded as on screen, without the unit that stands beside the field. */
function plainly(si: number, use: Use, system: UnitSystem): string {
  const shown = formatQuantity(si, use, system)
  return String(Number(shown.slice(0, shown.indexOf('\u00a0')).replaceAll(',', '')))
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
  if (limit !== null && duty.condition === 'brush_length')
    every.push(`at a brush length of ${formatQuantity(limit, 'brush', system)}`)
  if (limit !== null && duty.condition === 'pressure_drop')
    every.push(`at a pressure drop of ${formatQuantity(limit, 'pressure', system)}`)
  return every.length === 0 ? null : every.join(', or ')
}

/** The unit in which a bare number of each limit is read. */
export function limitUnits(system: UnitSystem): { volume: string; brush: string; pressure: string } {
  return {
    volume: displayUnit('tank', system),
    brush: displayUnit('brush', system),
    pressure: displayUnit('pressure', system),
  }
}
