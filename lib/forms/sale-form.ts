import { z } from 'zod'
import type { Day } from '@/lib/domain/quantity/day'
import { optionalDay, optionalText } from './fields'

/** What is typed when a property is sold and its well goes to another household. */
export const saleForm = (today: Day) =>
  z.object({
    ownerName: z
      .string()
      .trim()
      .min(1, 'Enter the name of the new household')
      .max(120, 'The name must be 120 characters or fewer'),
    ownerPhone: optionalText('phone number', 60),
    ownerEmail: optionalText('email address', 254),
    wellName: optionalText('name of the well', 120),
    on: optionalDay('day of the sale', today).refine((day) => day !== null, 'Enter the day of the sale'),
    reads: z.enum(['nothing', 'past'], 'Choose what the former household may read'),
  })

/** Sent by a button beside each grant, so that a complaint is never shown. */
export const revokeForm = z.object({ id: z.string().min(1) })

/** Whom to forget: a person's id, or the whole household. Both are asked twice, for it cannot be undone. */
export const forgetForm = z.object({
  who: z.string().min(1, 'Choose whom to forget'),
  sure: z.string().refine((text) => text === 'yes', 'Tick that this cannot be undone'),
})
