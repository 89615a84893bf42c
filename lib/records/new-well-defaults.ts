import { z } from 'zod'
import { slug } from '@/lib/domain/upkeep/keys'
import { DUTY_LIBRARY, dutyFromTemplate } from '@/lib/domain/upkeep/library'
import type { Db } from './db'
import type { DutyFields } from './duty-fields'
import { getSetting } from './settings'

const monthDay = z
  .string()
  .regex(/^(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/)
  .nullable()

/** What a new well and a new account begin with, as the outfit chose. */
const defaultsShape = z.object({
  /** Duties of the library by key, each with the outfit's own months; null keeps those of the library. */
  duties: z
    .array(z.object({ key: z.string().max(120), everyMonths: z.int().min(1).max(600).nullable() }))
    .max(60),
  closedFrom: monthDay,
  closedTo: monthDay,
  closedWhy: z.string().max(120).nullable(),
  units: z.enum(['us', 'metric']),
})
export type NewWellDefaults = z.infer<typeof defaultsShape>

export const DEFAULTS_KEY = 'new-well'

/** Nothing is given to a new well where the outfit chose nothing. */
const NOTHING: NewWellDefaults = {
  duties: [],
  closedFrom: null,
  closedTo: null,
  closedWhy: null,
  units: 'us',
}

/** What the outfit chose. Throws where the stored text has another shape. */
export function newWellDefaults(db: Db): NewWellDefaults {
  return getSetting(db, DEFAULTS_KEY, defaultsShape, NOTHING)
}

/** The duties that a new well is given, with the limits of the library and the outfit's own months. */
export function defaultDuties(db: Db): DutyFields[] {
  return newWellDefaults(db).duties.flatMap(({ key, everyMonths }) => {
    // A duty that a later library has no more is passed over: the choice is shown on its page, and can be made anew.
    const template = DUTY_LIBRARY.find(({ name }) => slug(name) === key)
    if (!template) return []
    const { condition, ...duty } = dutyFromTemplate(template)
    return [
      {
        ...duty,
        everyMonths: everyMonths ?? duty.everyMonths,
        condition: condition?.kind ?? null,
        conditionLimitSi: condition?.limitSi ?? null,
        typed: {},
      },
    ]
  })
}
