import { z } from 'zod'
import { uuidSchema } from '@/lib/domain/logbook/kinds'

/** The form that takes a line of the logbook back. */
export const withdrawalForm = z.object({
  newId: z
    .string()
    .refine((text) => uuidSchema.safeParse(text).success, 'This form has lost its number: open it again'),
  reason: z
    .string()
    .trim()
    .min(1, 'Say in a few words why the line is withdrawn')
    .max(500, 'The reason must be 500 characters or fewer'),
})
