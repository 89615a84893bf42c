import { z } from 'zod'
import { isDay } from '@/lib/domain/quantity/day'

/** Pieces that the shapes of several entry kinds are made of. */

/** Words of at least one and at most `max` characters, without outer blanks. */
export const text = (max: number) => z.string().trim().min(1).max(max)

/** SI value and what the person typed, kept exactly. */
export const quantitySchema = z.object({ si: z.number(), typed: z.string().max(80) })
export type StoredQuantity = z.infer<typeof quantitySchema>
export const positive = quantitySchema.refine((q) => q.si >= 0, 'A negative value cannot be stored here')

/** A real day, with or without its time: YYYY-MM-DD or YYYY-MM-DDTHH:MM, local time. */
export const momentSchema = z
  .string()
  .refine(
    (moment) => isDay(moment.slice(0, 10)) && /^.{10}(T([01]\d|2[0-3]):[0-5]\d)?$/.test(moment),
    'A sample is dated by a day of the calendar, with or without a time',
  )
