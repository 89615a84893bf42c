import { z } from 'zod'
import { positive, quantitySchema } from './shapes'

/** Entry kinds about the pump and what hangs on it. */

/** Which cartridge a drop was read across, where it was changed on the same visit. */
export const CARTRIDGE_SIDES = ['old', 'new'] as const

export const pressureReading = z
  .object({
    kind: z.literal('pressure-reading'),
    before: quantitySchema.optional(),
    after: quantitySchema.optional(),
    cartridge: z.enum(CARTRIDGE_SIDES).optional(),
  })
  .refine((p) => p.before !== undefined || p.after !== undefined, 'A pressure reading needs a pressure')

/** The gauge on the closed line after the pump stops: at once (Pa), after a while (Pa), and how long that was (s). */
export const valveTestFact = z.object({
  kind: z.literal('valve-test'),
  before: quantitySchema,
  after: quantitySchema,
  held: positive,
})
