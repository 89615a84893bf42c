import { z } from 'zod'
import { needed, optionalDay, optionalText, optionalTime } from './fields'

/** What can be changed of a planned round beside its stops. `version` is that of the round as it was opened. */
export const roundForm = z
  .object({
    version: z.string().transform(Number),
    name: z
      .string()
      .trim()
      .min(1, 'Enter a name, such as Monday, upper valley')
      .max(80, 'The name must be 80 characters or fewer'),
    day: needed(optionalDay('day of the round', null), 'Enter the day of the round, like 27 Mar 2026'),
    startAt: needed(optionalTime('hour of leaving'), 'Enter when the truck leaves, like 8:00'),
    endAt: needed(optionalTime('hour of being back'), 'Enter when the truck is to be back, like 17:00'),
    person: z.string().transform((text) => (text === '' ? null : text)),
    notes: optionalText('notes', 2000),
  })
  .superRefine(({ startAt, endAt }, context) => {
    if (endAt > startAt) return
    context.addIssue({ code: 'custom', path: ['endAt'], message: 'The truck must be back after it leaves' })
  })
