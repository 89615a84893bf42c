import { z } from 'zod'
import type { YardSetting } from '@/lib/domain/place'
import { DUTY_LIBRARY } from '@/lib/domain/upkeep'
import { slug } from '@/lib/domain/upkeep/keys'
import { optionalCoordinate } from './coordinate'
import { needed, optionalTime } from './fields'

/** The duties whose minutes the form asks for: those of the library. */
export const TIMED_DUTIES = DUTY_LIBRARY.map(({ name }) => ({ key: slug(name), name }))

/** The name of the field for the minutes of a duty. */
export const minutesField = (key: string) => `minutes:${key}`

const number = (what: string, min: number, max: number, whole: boolean) =>
  z.string().transform((text, context) => {
    const tidy = text.trim()
    const value = /^\d+(\.\d+)?$/.test(tidy) ? Number(tidy) : Number.NaN
    if (value >= min && value <= max && (!whole || Number.isInteger(value))) return value
    const kind = whole ? 'a whole number' : 'a number'
    context.addIssue({ code: 'custom', message: `The ${what} must be ${kind} from ${min} to ${max}` })
    return z.NEVER
  })

const optionalMinutes = (name: string) =>
  z.string().transform((text, context): number | null => {
    const tidy = text.trim()
    if (tidy === '') return null
    const minutes = /^\d+$/.test(tidy) ? Number(tidy) : Number.NaN
    if (minutes >= 1 && minutes <= 480) return minutes
    context.addIssue({
      code: 'custom',
      message: `The minutes for ${name} must be a whole number from 1 to 480`,
    })
    return z.NEVER
  })

/** The form of the yard and the usual day; blank coordinates mean that it is not known where the yard is. */
export const yardForm = z
  .object({
    yardLatitude: optionalCoordinate('latitude'),
    yardLongitude: optionalCoordinate('longitude'),
    startAt: needed(optionalTime('hour of leaving'), 'Enter when the truck leaves, like 8:00'),
    endAt: needed(optionalTime('hour of being back'), 'Enter when the truck is to be back, like 17:00'),
    roadFactor: number('road factor', 1, 5, false),
    speedKmH: number('mean speed', 5, 130, false),
    setUpMinutes: number('minutes for setting up', 0, 240, true),
    minutesUsual: number('minutes for a duty', 1, 480, true),
    ...Object.fromEntries(TIMED_DUTIES.map(({ key, name }) => [minutesField(key), optionalMinutes(name)])),
  })
  .superRefine((day, context) => {
    const complain = (path: string, message: string) =>
      context.addIssue({ code: 'custom', path: [path], message })
    if (day.endAt <= day.startAt) complain('endAt', 'The truck must be back after it leaves')
    if (day.yardLatitude !== null && day.yardLongitude === null)
      complain('yardLongitude', 'Enter the longitude too, or leave both blank')
    if (day.yardLongitude !== null && day.yardLatitude === null)
      complain('yardLatitude', 'Enter the latitude too, or leave both blank')
  })

/** The setting that an accepted form says. */
export function yardOf(value: z.output<typeof yardForm>): YardSetting {
  const { yardLatitude, yardLongitude, startAt, endAt } = value
  const minutes: Record<string, number> = {}
  for (const { key } of TIMED_DUTIES) {
    const given = (value as Record<string, unknown>)[minutesField(key)]
    if (typeof given === 'number') minutes[key] = given
  }
  return {
    yard: yardLatitude && yardLongitude ? { latitude: yardLatitude.si, longitude: yardLongitude.si } : null,
    startAt,
    endAt,
    roadFactor: value.roadFactor,
    speedKmH: value.speedKmH,
    setUpMinutes: value.setUpMinutes,
    minutesUsual: value.minutesUsual,
    minutes,
  }
}

/** The texts with which the form opens. */
export function yardTexts(setting: YardSetting): Record<string, string> {
  return {
    yardLatitude: setting.yard ? String(setting.yard.latitude) : '',
    yardLongitude: setting.yard ? String(setting.yard.longitude) : '',
    startAt: setting.startAt,
    endAt: setting.endAt,
    roadFactor: String(setting.roadFactor),
    speedKmH: String(setting.speedKmH),
    setUpMinutes: String(setting.setUpMinutes),
    minutesUsual: String(setting.minutesUsual),
    ...Object.fromEntries(Object.entries(setting.minutes).map(([key, n]) => [minutesField(key), String(n)])),
  }
}
