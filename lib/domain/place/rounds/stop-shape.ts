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
  /** False for what no visit form ticks: the next step of a chain is seen to by its own lines. */
  ticked: z.boolean().default(true),
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

const uuid = z.string().regex(/^[0-9a-f]{8}-[0-9a-f]{4}-[1-8][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/)

/** How the next steps that a person can leave out are called on the form. */
export const CHOSEN_STEPS = ['visit-again', 'call-owner', 'mend-place', 'search'] as const
export type ChosenStep = (typeof CHOSEN_STEPS)[number]

/**
 * The closing of a stop as its writer sends it. `visitId` is made where the closing is made: it names the visit whose
 * lines come with it, and the same closing sent twice closes once. `madeAt` is that device's instant: where two
 * devices closed one stop, the later holds, whichever arrives first.
 */
export const stopClosing = z.object({
  stopId: uuid,
  visitId: uuid,
  outcome: z.enum(STOP_OUTCOMES),
  madeAt: z.iso.datetime(),
  /** What was tried, why there was no access, or why not all was done; '' for done. */
  said: z.string().trim().max(1000),
  /** The suggested next steps that the person kept. */
  steps: z.array(z.enum(CHOSEN_STEPS)).max(CHOSEN_STEPS.length),
  /** A next step in the person's own words; '' for none. */
  other: z.string().trim().max(400),
})
export type StopClosing = z.infer<typeof stopClosing>

/** The key of a stop’s reason that is no duty of the well: to come again after a stop that was not done. */
export const AGAIN_KEY = '~again'
