import { z } from 'zod'
import { AGAIN_EVENTS } from '@/lib/domain/water/events'
import { NOTICE_KINDS } from '@/lib/domain/water/tables/notices'
import { momentSchema, positive, quantitySchema, text } from './shapes'

/** What a logbook says of a well's water: a lab sheet, an inspection, and the steps of a chain. */

export const CHLORINATED = ['yes', 'no', 'unknown'] as const
export const SAMPLE_PURPOSES = [
  'routine',
  'after-flood',
  'after-repair',
  'resample',
  'new-well',
  'complaint',
] as const

/** Which question of the reading a person has answered, and how (lib/domain/water/result-questions.ts). */
const answered = z.object({
  question: z.enum(['form', 'scale', 'qualifier', 'zero', 'limit']),
  answer: text(60),
})

const resultRow = z.object({
  analyte: text(200),
  /** As on the sheet: "<1", "ND", "Absent", ">2419.6". */
  result: z.string().trim().max(120),
  unit: z.string().trim().max(60).optional(),
  reportingLimit: z.string().trim().max(60).optional(),
  method: z.string().trim().max(120).optional(),
  /** The laboratory's letters beside the result: "J", "U", "H". */
  qualifier: text(60).optional(),
  /** The analyte a person said a doubtful name means. */
  analyteId: text(60).optional(),
  answers: z.array(answered).max(8).optional(),
  /** Why a person keeps this result out of the judgment; it is never a pass. */
  leftOut: text(200).optional(),
})

export const sample = z.object({
  kind: z.literal('sample'),
  /** Local date and time as on the sheet, YYYY-MM-DD or YYYY-MM-DDTHH:MM. */
  sampledAt: momentSchema,
  receivedAt: momentSchema.optional(),
  /** When the laboratory began. */
  analysedAt: momentSchema.optional(),
  /** K: how warm the bottles were on arrival. */
  receivedTemp: quantitySchema.optional(),
  /** Whether chlorine was in the water when it was taken. */
  chlorinated: z.enum(CHLORINATED).optional(),
  lab: text(200).optional(),
  sampleId: text(120).optional(),
  point: text(200).optional(),
  /** Who filled the bottles. */
  sampler: text(120).optional(),
  purpose: z.enum(SAMPLE_PURPOSES).optional(),
  /** How the sheet writes numbers, where it was asked: 'comma' is 1.200,5. */
  decimals: z.enum(['point', 'comma']).optional(),
  /** Absent: the outfit. What an owner enters never clears a chain until somebody of the outfit confirms it. */
  enteredBy: z.enum(['outfit', 'owner']).optional(),
  confirmedBy: text(120).optional(),
  /** Analytes (ids) that were ordered, or stood on the sheet before a row was taken out: each must have a result. */
  asked: z.array(text(60)).max(300).optional(),
  results: z.array(resultRow).min(1).max(300),
})

export const SANITARY_ANSWERS = ['yes', 'no', 'not-applicable', 'not-sure'] as const

export const sanitaryInspection = z.object({
  kind: z.literal('sanitary-inspection'),
  form: text(60),
  /** Question ('q1' is the first of the form) to its answer; 'yes' is a risk present, 'not-sure' is not "no". */
  answers: z.record(z.string().max(60), z.enum(SANITARY_ANSWERS)),
})

const step = z.literal('water-step')
/** The chain it is about ('bacteria', 'nitrate', an analyte's id); absent: every chain that is open. */
const chain = text(60).optional()

export const CHLORINE_GONE = ['yes', 'no', 'not-tested'] as const

/** One step of a chain, or an event after which the water is tested again. */
export const waterStep = z.discriminatedUnion('step', [
  z.object({
    kind: step,
    step: z.literal('notice'),
    notice: z.enum(NOTICE_KINDS),
    to: text(200),
    how: text(120).optional(),
    chain,
  }),
  z.object({
    kind: step,
    step: z.literal('disinfected'),
    /** Available chlorine in the water, mg/L. */
    targetMgL: z.number().positive().max(10_000).optional(),
    product: text(120).optional(),
    /** Available chlorine as on the label, %. */
    strengthPercent: z.number().positive().max(100).optional(),
    /** What was put in: m³ of a liquid, g of a dry product. */
    volume: positive.optional(),
    massG: z.number().positive().max(1_000_000).optional(),
    /** How long it stood, s. */
    contact: positive.optional(),
  }),
  z.object({
    kind: step,
    step: z.literal('flushed'),
    chlorineGone: z.enum(CHLORINE_GONE),
    where: text(200).optional(),
  }),
  z.object({ kind: step, step: z.literal('remedied'), what: text(500), chain }),
  z.object({ kind: step, step: z.literal('well-repaired'), what: text(500) }),
  z.object({ kind: step, step: z.literal('chain-closed'), by: text(120), reason: text(500), chain }),
  z.object({ kind: step, step: z.literal('test-again'), event: z.enum(AGAIN_EVENTS) }),
])

export const WATER_STEPS = [
  'notice',
  'disinfected',
  'flushed',
  'remedied',
  'well-repaired',
  'chain-closed',
  'test-again',
] as const satisfies readonly z.infer<typeof waterStep>['step'][]
