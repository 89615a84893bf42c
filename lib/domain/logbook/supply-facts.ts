import { z } from 'zod'
import { isDay } from '@/lib/domain/quantity/day'
import { positive, text } from './shapes'

/** What water is asked for; the word decides at which hours of the day it is drawn. */
export const USE_NAMES = ['house', 'stock', 'garden'] as const
export type UseName = (typeof USE_NAMES)[number]

/** How a user's own table of the sun is meant: kWh/m² a day on the level, hours of bright sun, or clearness. */
export const SUN_TABLES = ['energy', 'sunshine', 'clearness'] as const

const month = z.number().int().min(1).max(12)

/**
 * What drives the pump and what water is asked for, as the register keeps it: JSON in one column. Left out is unknown.
 * Units   SI with the text typed; demand m³/s as the mean of a day; angles in degrees from level and from due south,
 *         west positive.
 */
const supplyFactsSchema = z.object({
  drive: z.enum(['sun', 'mains']),
  /** What the pump gives at full sun, or whenever it runs on mains. */
  flow: positive.optional(),
  panel: positive.optional(),
  tiltDeg: z.number().min(0).max(90).optional(),
  azimuthDeg: z.number().min(-180).max(180).optional(),
  sun: z
    .object({ kind: z.enum(SUN_TABLES), values: z.array(z.number().min(0)).length(12), source: text(200) })
    .optional(),
  /** Whether the pump stands on the ground and sucks, or hangs in the water. */
  pumpPlace: z.enum(['ground', 'water']).optional(),
  uses: z
    .array(z.object({ name: z.enum(USE_NAMES), daily: positive, months: z.array(month).min(1).max(12) }))
    .max(USE_NAMES.length)
    .refine((uses) => new Set(uses.map(({ name }) => name)).size === uses.length),
  setOn: z.string().refine(isDay),
})
export type SupplyFacts = z.infer<typeof supplyFactsSchema>

/** The facts with what the register holds of the place; null is unknown. */
export type SupplySide = {
  facts: SupplyFacts
  latitudeDeg: number | null
  /** Level ground to pump. */
  liftM: number | null
}

/** A stored text as facts; null for none. Throws where the text has another shape: it was checked on the way in. */
export const supplyFactsOf = (stored: string | null): SupplyFacts | null =>
  stored === null ? null : supplyFactsSchema.parse(JSON.parse(stored))

/** The same for a text from elsewhere: null where it says no such thing. */
export function readSupplyFacts(given: string): SupplyFacts | null {
  try {
    return supplyFactsSchema.parse(JSON.parse(given))
  } catch (error) {
    if (error instanceof SyntaxError || error instanceof z.ZodError) return null
    throw error
  }
}

/** The text under which facts are stored. Throws ZodError for what has not their shape. */
export const supplyText = (facts: SupplyFacts): string => JSON.stringify(supplyFactsSchema.parse(facts))

/** What the reckoning needs, from a well's row or the fields of a file. */
export function supplySideOf(well: {
  supply: string | null
  latitude: number | null
  liftM: number | null
}): SupplySide | null {
  const facts = supplyFactsOf(well.supply)
  const { latitude: latitudeDeg, liftM } = well
  return facts && { facts, latitudeDeg, liftM }
}

/** The facts as short texts, by field: what the change record shows. Every field is there, null where it is not known. */
export function supplyTexts(facts: SupplyFacts | null): Record<string, string | null> {
  const angle = (deg: number | undefined) => (deg === undefined ? null : `${deg}°`)
  return {
    drivenBy: facts?.drive ?? null,
    fullFlow: facts?.flow?.typed ?? null,
    panels: facts?.panel?.typed ?? null,
    tilt: angle(facts?.tiltDeg),
    facing: angle(facts?.azimuthDeg),
    sunTable: facts?.sun ? `${facts.sun.kind}: ${facts.sun.values.join(' ')} (${facts.sun.source})` : null,
    pumpPlace: facts?.pumpPlace ?? null,
    uses:
      facts?.uses
        .map(({ name, daily, months }) => `${name} ${daily.typed} in ${months.length} months`)
        .join(', ') || null,
  }
}
