import { z } from 'zod'
import { positive, quantitySchema, text } from './shapes'

/** What a logbook says of the place of a buried head: where it was fixed, and how it is taped to marks that stay. */

/** How a coordinate was taken: by a phone, by a surveyor's instrument, or read off a map. */
export const FIX_WAYS = ['phone', 'survey', 'map'] as const

const MARKS_MAX = 8

/** Degrees, north and east positive, and the two texts as typed. */
const position = z.object({
  latitude: z.number().min(-90).max(90),
  longitude: z.number().min(-180).max(180),
  typed: z.string().max(120),
})

/** `accuracy` is the radius that holds the point with 95 %, m; absent where nobody noted it. */
const fix = position.extend({ accuracy: positive.optional(), how: z.enum(FIX_WAYS) })

const bearing = z.object({
  degrees: z.number().min(0).max(360),
  north: z.enum(['true', 'magnetic']),
})

const named = { name: text(60), about: text(300).optional() }
const hand = z.enum(['left', 'right'])
const listOf = <T extends z.ZodType>(shape: T) => z.array(shape).max(MARKS_MAX)

/** The marks, and how it is known where they stand (lib/domain/place/marks.ts). */
const marks = z.discriminatedUnion('given', [
  z.object({ given: z.literal('names'), list: listOf(z.object(named)) }),
  /** Metres east and north of a zero point, which may have a position. */
  z.object({
    given: z.literal('local'),
    origin: position.optional(),
    list: listOf(z.object({ ...named, east: quantitySchema, north: quantitySchema })),
  }),
  z.object({ given: z.literal('geographic'), list: listOf(fix.omit({ how: true }).extend(named)) }),
  /** Tapes between the marks. `side`: the hand on which a mark lies when walking from the first to the second. */
  z.object({
    given: z.literal('spans'),
    list: listOf(z.object({ ...named, side: hand.optional() })),
    spans: z.array(z.object({ from: text(60), to: text(60), tape: positive })).max(MARKS_MAX * 2),
    firstToSecond: bearing.optional(),
  }),
])

/** How a tape lay: the rise between its ends in m, or its angle from level; absent for level. */
const slope = z.union([
  z.object({ rise: quantitySchema }),
  z.object({ degrees: z.number().gt(-90).lt(90), typed: z.string().max(80) }),
])

const tie = z.object({ mark: text(60), tape: positive, slope: slope.optional() })

export const placeMeasured = z
  .object({
    kind: z.literal('place-measured'),
    fix: fix.optional(),
    marks,
    ties: z.array(tie).max(MARKS_MAX),
    /** The hand on which the head lies when walking from the first mark of the ties to the second. */
    side: hand.optional(),
    /** Soil over the lid, m. */
    cover: positive.optional(),
    /** A walk from a mark; `pace` is the walker's own, m. */
    paced: z
      .object({
        mark: text(60),
        paces: z.number().positive().max(5000).optional(),
        pace: positive.optional(),
        bearing: bearing.optional(),
      })
      .optional(),
    /** What a compass must be turned by here, degrees, east positive. */
    declinationDeg: z.number().min(-180).max(180).optional(),
    note: text(2000).optional(),
  })
  .refine(({ ties, marks: { list } }) => ties.every((one) => list.some(({ name }) => name === one.mark)), {
    path: ['ties'],
    error: 'Each tie is from one of the marks',
  })

export type PlaceFact = z.infer<typeof placeMeasured>
