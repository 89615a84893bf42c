/** What an outfit says once about its days on the road. */
import { z } from 'zod'
import { USUAL_DRIVING } from './travel'

const timeOfDay = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/)

/** Common practice, no published source: a duty takes twenty minutes, opening and closing a buried head ten. */
const MINUTES_USUAL = 20
const SET_UP_USUAL = 10

/**
 * The yard and the usual day. `yard` is null until it was set: without it no driving can be reckoned. `minutes` are
 * those of duties by key; any other duty takes `minutesUsual`, and every stop `setUpMinutes` beside its duties.
 */
export const yardSetting = z.object({
  yard: z
    .object({ latitude: z.number().min(-90).max(90), longitude: z.number().min(-180).max(180) })
    .nullable()
    .default(null),
  startAt: timeOfDay.default('08:00'),
  endAt: timeOfDay.default('17:00'),
  roadFactor: z.number().min(1).max(5).default(USUAL_DRIVING.roadFactor),
  speedKmH: z.number().min(5).max(130).default(USUAL_DRIVING.speedKmH),
  setUpMinutes: z.number().int().min(0).max(240).default(SET_UP_USUAL),
  minutesUsual: z.number().int().min(1).max(480).default(MINUTES_USUAL),
  minutes: z.record(z.string(), z.number().int().min(1).max(480)).default({}),
})
export type YardSetting = z.infer<typeof yardSetting>

export const YARD_KEY = 'yard'

/** How long the duty of that key takes, min. */
export function dutyMinutes(setting: YardSetting, key: string): number {
  return setting.minutes[key] ?? setting.minutesUsual
}

/** How long a stop with these duties takes, min, setting up included; a stop takes a minute at least. */
export function stopMinutes(setting: YardSetting, keys: readonly string[]): number {
  return Math.max(
    1,
    keys.reduce((sum, key) => sum + dutyMinutes(setting, key), setting.setUpMinutes),
  )
}
