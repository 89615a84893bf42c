import { z } from 'zod'
import { confirmation, ownerAnswer, tankLevel, visitAnswer, visitRequest } from './owner-kinds'
import { placeMeasured } from './place-kinds'
import { pressureReading, valveTestFact } from './pump-kinds'
import { positive, quantitySchema, text } from './shapes'
import { sample, sanitaryInspection, waterStep } from './water-kinds'

export { TANK_LEVELS, VISIT_ANSWERS, VISIT_REASONS } from './owner-kinds'
export { CARTRIDGE_SIDES } from './pump-kinds'
export type { StoredQuantity } from './shapes'
export { CHLORINATED, CHLORINE_GONE, SAMPLE_PURPOSES, SANITARY_ANSWERS, WATER_STEPS } from './water-kinds'

/**
 * The entry kinds: what one line of a logbook can say. One zod shape a kind.
 *
 * A quantity is stored in SI with the text that was typed beside it; a blank is left out,
 * never stored as zero. To add a kind: write its shape here (those of water: ./water-kinds.ts, those between household and outfit: ./owner-kinds.ts), add it to
 * `factSchema`, give it a sentence in ./describe.ts and a place in the visit form.
 */

export const PART_KINDS = [
  'pump',
  'filter housing',
  'cartridge',
  'brushes',
  'check valve',
  'drop pipe',
  'o-rings',
  'lamp',
  'tank',
  'cap',
  'other',
] as const

const serviceDone = z.object({
  kind: z.literal('service-done'),
  /** Keys of duties (slugs of their names). */
  duties: z
    .array(text(120).regex(/[\p{L}\p{N}]/u, 'Work done is named in words'))
    .min(1)
    .max(40),
  /** Duty names as written, so that a line stays readable when a duty is gone. */
  names: z.array(text(120)).max(40).default([]),
  parts: z
    .array(
      z.object({
        part: z.enum(PART_KINDS),
        model: text(120).optional(),
        count: z.number().int().min(1).max(99),
        /** Left out where it is not known. */
        warrantyMonths: z.number().int().min(1).max(600).optional(),
      }),
    )
    .max(20)
    .default([]),
})

/** What a person said when a reading was questioned. */
export const METER_EXPLANATIONS = ['replaced', 'rolled-over', 'kept'] as const

const meterReading = z.object({
  kind: z.literal('meter-reading'),
  meter: z.enum(['hours', 'volume']),
  /** s for hours, m³ for volume. */
  reading: positive,
  explained: z.enum(METER_EXPLANATIONS).nullable().default(null),
})

const levelReading = z.object({
  kind: z.literal('level-reading'),
  /** m below the measuring point; may be negative in a flowing well. */
  level: quantitySchema,
  state: z.enum(['rest', 'pumping']),
})

const flowReading = z.object({
  kind: z.literal('flow-reading'),
  flow: positive,
  /** How long the pump had run, s. */
  pumped: positive.optional(),
})

const brushLength = z.object({ kind: z.literal('brush-length'), lengths: z.array(positive).min(1).max(8) })

const electricalReading = z
  .object({ kind: z.literal('electrical-reading'), amps: positive.optional(), volts: positive.optional() })
  .refine((p) => p.amps !== undefined || p.volts !== undefined, 'An electrical reading needs amps or volts')

/** elapsed in s since the pump stopped (recovery) or started (drawdown); level in m. */
const timedLevels = z
  .array(z.object({ elapsed: positive, level: quantitySchema }))
  .min(1)
  .max(500)

const recoveryTest = z.object({
  kind: z.literal('recovery-test'),
  static: quantitySchema.optional(),
  readings: timedLevels,
})

const drawdownTest = z.object({
  kind: z.literal('drawdown-test'),
  static: quantitySchema.optional(),
  flow: positive,
  readings: timedLevels,
})

const stepTest = z.object({
  kind: z.literal('step-test'),
  static: quantitySchema.optional(),
  steps: z
    .array(z.object({ flow: positive, duration: positive, level: quantitySchema }))
    .min(1)
    .max(20),
})

export const EVENTS = [
  'rehabilitated',
  'rebuilt',
  'pump-replaced',
  'meter-replaced',
  'cartridge-changed',
  'brushes-changed',
  'flooded',
  'iron-bloom',
  'ran-dry',
  'prime-lost',
  'found',
  'not-found',
  'no-access',
] as const

const event = z.object({
  kind: z.literal('event'),
  event: z.enum(EVENTS),
  /** For meter-replaced: which meter, its last reading and the new one's first. */
  meter: z.enum(['hours', 'volume']).optional(),
  oldReading: positive.optional(),
  newReading: positive.optional(),
})

const note = z.object({ kind: z.literal('note'), text: text(4000) })

/** The kinds that say something about the well; a correction carries one of them anew. */
export const factSchema = z.discriminatedUnion('kind', [
  serviceDone,
  meterReading,
  levelReading,
  flowReading,
  pressureReading,
  valveTestFact,
  brushLength,
  electricalReading,
  recoveryTest,
  drawdownTest,
  stepTest,
  sample,
  sanitaryInspection,
  waterStep,
  event,
  note,
  tankLevel,
  visitRequest,
  visitAnswer,
  confirmation,
  ownerAnswer,
  placeMeasured,
])
export type Fact = z.infer<typeof factSchema>

const daySchema = z.string().regex(/^\d{4}-\d{2}-\d{2}$/)
const timeSchema = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/)

const correction = z.object({
  kind: z.literal('correction'),
  reason: text(500),
  occurredOn: daySchema,
  occurredTime: timeSchema.nullable(),
  replacement: factSchema,
})

const withdrawal = z.object({ kind: z.literal('withdrawal'), reason: text(500) })

export const payloadSchema = z.union([factSchema, correction, withdrawal])
export type Payload = z.infer<typeof payloadSchema>

export const uuidSchema = z
  .string()
  .regex(/^[0-9a-f]{8}-[0-9a-f]{4}-[1-8][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/)

/**
 * An entry as its writer sends it: id made where it is made, day and time as plain text.
 * A correction names what it supersedes, a withdrawal what it withdraws; nothing else names either.
 */
export const entryDraftSchema = z
  .object({
    id: uuidSchema,
    wellId: z.string().min(1).max(60),
    visitId: uuidSchema,
    occurredOn: daySchema,
    occurredTime: timeSchema.nullable(),
    byName: z.string().trim().max(120).nullable(),
    supersedes: uuidSchema.nullable(),
    withdraws: uuidSchema.nullable(),
    payload: payloadSchema,
  })
  .refine((e) => (e.payload.kind === 'correction') === (e.supersedes !== null), {
    path: ['supersedes'],
    error: 'A correction, and only a correction, names the entry it supersedes',
  })
  .refine((e) => (e.payload.kind === 'withdrawal') === (e.withdraws !== null), {
    path: ['withdraws'],
    error: 'A withdrawal, and only a withdrawal, names the entry it takes back',
  })
export type EntryDraft = z.infer<typeof entryDraftSchema>
