import { z } from 'zod'
import { PART_KINDS, uuidSchema } from '@/lib/domain/logbook/kinds'
import type { Day } from '@/lib/domain/quantity/day'
import { optionalDay, optionalText } from './fields'

const COUNT_MAX = 9999
const KINDS = ['counted', 'received', 'taken'] as const

const whole = (what: string, least: number) =>
  z.string().transform((text, context): number => {
    const tidy = text.trim()
    const value = Number(tidy)
    if (/^\d{1,4}$/.test(tidy) && value >= least) return value
    context.addIssue({
      code: 'custom',
      message: `The ${what} must be a whole number from ${least} to ${COUNT_MAX}`,
    })
    return z.NEVER
  })

/** The form of one line of the stock book. `moveId` is made with the form, so that sending it twice counts once. */
export function stockMoveForm(today: Day) {
  return z
    .object({
      moveId: uuidSchema,
      part: z.enum(PART_KINDS, 'Choose what kind of part this is'),
      model: optionalText('model or size', 120),
      kind: z.enum(KINDS, 'Choose whether it was counted, received or taken'),
      count: whole('number', 0),
      on: optionalDay('day', today),
      reason: optionalText('reason', 300),
    })
    .superRefine((move, context) => {
      if (move.kind === 'counted' || move.count > 0) return
      context.addIssue({
        code: 'custom',
        path: ['count'],
        message: `Nothing ${move.kind} is no line: enter how many, or count the shelf`,
      })
    })
}

/** The form of an item's reorder rule: both numbers, or both blank for none. */
export const stockRuleForm = z
  .object({ reorderAt: z.string(), upTo: z.string() })
  .transform(({ reorderAt, upTo }, context): { reorderAt: number; upTo: number } | null => {
    if (reorderAt.trim() === '' && upTo.trim() === '') return null
    const read = (field: 'reorderAt' | 'upTo', what: string, text: string) => {
      const parsed = whole(what, 0).safeParse(text)
      if (parsed.success) return parsed.data
      context.addIssue({ code: 'custom', path: [field], message: parsed.error.issues[0]?.message ?? what })
      return null
    }
    const at = read('reorderAt', 'reorder level', reorderAt)
    const to = read('upTo', 'number to fill up to', upTo)
    if (at === null || to === null) return z.NEVER
    if (to > at) return { reorderAt: at, upTo: to }
    context.addIssue({
      code: 'custom',
      path: ['upTo'],
      message: 'Fill up to more than the reorder level, or the order would come at once again',
    })
    return z.NEVER
  })

/** How far ahead a list of parts may look, days. */
export const STOCK_DAYS = [7, 14, 30, 60, 90] as const

/** The days that an address asks for: 30 where it asks for nothing known. */
export function stockDays(text: string): number {
  return STOCK_DAYS.find((days) => String(days) === text) ?? 30
}
