import { z } from 'zod'
import { isDay } from '@/lib/domain/quantity/day'
import { text } from './shapes'

/** What passes between a household and the outfit: a tank read, a visit asked for, and who looked at what the other wrote. */

export const TANK_LEVELS = ['full', 'three-quarters', 'half', 'quarter', 'empty'] as const

/** How full the tank is, as far as an eye or a float tells. */
export const tankLevel = z.object({ kind: z.literal('tank-level'), level: z.enum(TANK_LEVELS) })

export const VISIT_REASONS = ['water', 'flow', 'pump', 'flood', 'look', 'other'] as const

export const visitRequest = z.object({
  kind: z.literal('visit-request'),
  about: z.enum(VISIT_REASONS),
  urgent: z.boolean(),
  text: text(1000).optional(),
  /** Where to call back, as written. */
  phone: text(60).optional(),
})

/** The entry that this one is about, by its id. */
const of = z.string().min(1).max(60)

export const VISIT_ANSWERS = ['planned', 'done', 'not-coming'] as const

export const visitAnswer = z.object({
  kind: z.literal('visit-answer'),
  of,
  state: z.enum(VISIT_ANSWERS),
  /** The day that was promised. */
  on: z.string().refine(isDay, 'This is no day of the calendar').optional(),
  text: text(1000).optional(),
})

/** Somebody of the outfit has looked at what a household wrote. It speaks of the words as they stood then. */
export const confirmation = z
  .object({
    kind: z.literal('confirmation'),
    of,
    verdict: z.enum(['confirmed', 'queried']),
    text: text(1000).optional(),
  })
  .refine((look) => look.verdict === 'confirmed' || look.text !== undefined, {
    path: ['text'],
    error: 'A question needs its words',
  })

/** What a household says to a question of the outfit. */
export const ownerAnswer = z.object({ kind: z.literal('owner-answer'), of, text: text(1000) })
