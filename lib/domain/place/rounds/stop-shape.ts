/** What a stop of a stored round carries as JSON, and how its closing is sent. */
import { z } from 'zod'

export const STOP_OUTCOMES = ['done', 'partly', 'not-found', 'no-access'] as const
export type StopOutcome = (typeof STOP_OUTCOMES)[number]

/** A duty planned at a stop, with the sentence that says why it is on the round. */
export const plannedDuty = z.object({
  key: z.string().min(1).max(120),
  name: z.string().min(1).max(200),
  consequence: z.enum(['health', 'supply', 'wear']),
  why: z.string().max(400).default(''),
})
export type PlannedDuty = z.infer<typeof plannedDuty>

/** What is to follow on a stop that was not done; `by` is the day by which, YYYY-MM-DD, null where none is set. */
export const followUp = z.object({
  kind: z.enum(['stays-due', 'visit-again', 'call-owner', 'mend-place', 'search', 'other']),
  words: z.string().min(1).max(600),
  by: z
    .string()
    .regex(/^\d{4}-\d{2}-\d{2}$/)
    .nullable()
    .default(null),
})
export type FollowUp = z.infer<typeof followUp>
