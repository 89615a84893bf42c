import { z } from 'zod'
import { placeMeasured } from '@/lib/domain/logbook/place-kinds'
import { plannedDuty, STOP_OUTCOMES } from '@/lib/domain/place'

/**
 * What a phone may carry of a well, and nothing else: the server leaves out what is not named here, and the phone reads
 * back nothing that does not fit. Quantities as text for reading; numbers only where the form asks its questions by them.
 */
const day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/)

const meter = z.object({
  points: z.array(z.object({ on: day, id: z.string(), value: z.number(), used: z.number().nullable() })),
  perDayMax: z.number(),
})

const number = z.number().nullable()

/** What a test is reckoned with: the well as built, and the last recovery, by which the level at rest is waited for. */
const tested = z.object({
  well: z.object({
    casingBoreM: number,
    casingOutsideM: number,
    pitDiameterM: number,
    pitLengthM: number,
    pitWidthM: number,
    gravelPorosity: number,
    wellDepthM: number,
    intakeDepthM: number,
  }),
  lastRecovery: z.object({ on: day, timeConstantS: z.number() }).nullable(),
})

const lastReading = z.object({ on: day, typed: z.string() })

export const phoneWellSchema = z.object({
  id: z.string().min(1),
  label: z.string(),
  name: z.string().nullable(),
  area: z.string().nullable(),
  owner: z.object({ name: z.string(), phone: z.string().nullable() }).nullable(),
  latitude: z.number().nullable(),
  longitude: z.number().nullable(),
  access: z.string().nullable(),
  notes: z.string().nullable(),
  visitFrom: z.string().nullable(),
  visitUntil: z.string().nullable(),
  /** Absent in what a phone took along before there were such wishes. */
  visitDays: z.string().nullable().default(null),
  gateCode: z.string().nullable(),
  hazards: z.string().nullable(),
  closedFrom: z.string().nullable(),
  closedTo: z.string().nullable(),
  closedWhy: z.string().nullable(),
  /** Warnings that the household was given and that are not cleared. */
  chains: z.array(z.object({ key: z.string(), name: z.string(), openedOn: day, next: z.string() })),
  duties: z.array(
    z.object({
      key: z.string(),
      name: z.string(),
      due: day.nullable(),
      lastDoneOn: day.nullable(),
      why: z.string(),
    }),
  ),
  /** The newest visits, each line a sentence. */
  visits: z.array(z.object({ on: day, by: z.string(), lines: z.array(z.string()) })),
  /** What the visit form must know to ask about odd readings. */
  wellDepthM: z.number().nullable(),
  hours: meter,
  volume: meter,
  last: z.record(z.string(), lastReading),
  /** What leads to the buried head: the phone makes the same find sheet from it. Photos come along by their ids. */
  place: z.object({
    measured: z.object({ on: day, byName: z.string().nullable(), fact: placeMeasured }).nullable(),
    photos: z.array(z.object({ id: z.string(), about: z.string().nullable() })),
    earlier: z.boolean(),
    lastSearch: z.object({ on: day, found: z.boolean() }).nullable(),
  }),
  /** Not there in what was taken along before tests could be run without signal. */
  tested: tested.optional(),
  units: z.enum(['us', 'metric']),
})
export type PhoneWell = z.infer<typeof phoneWellSchema>

/** What a phone is handed for a well that is taken along. `zone`: where days begin and end for the outfit. */
/** `pictures` are the ids of the photos that come along. */
export const takenWellSchema = z.object({
  version: z.literal(1),
  zone: z.string(),
  pictures: z.array(z.string()).optional(),
  well: phoneWellSchema,
})
export type TakenWell = z.infer<typeof takenWellSchema>

const phoneStopSchema = z.object({
  id: z.string(),
  position: z.number(),
  wellId: z.string(),
  label: z.string(),
  wellName: z.string().nullable(),
  gateCode: z.string().nullable(),
  hazards: z.string().nullable(),
  notBefore: z.string().nullable(),
  doneBy: z.string().nullable(),
  onlyOn: z.string().nullable().default(null),
  /** Missing in what was taken along before stops had notes. */
  note: z.string().nullable().default(null),
  outcome: z.enum(STOP_OUTCOMES).nullable(),
  duties: z.array(plannedDuty),
})
export type PhoneStop = z.infer<typeof phoneStopSchema>

export const phoneRoundSchema = z.object({
  id: z.string(),
  name: z.string(),
  day,
  notes: z.string().nullable(),
  stops: z.array(phoneStopSchema),
  wells: z.array(phoneWellSchema),
  units: z.enum(['us', 'metric']),
})
export type PhoneRound = z.infer<typeof phoneRoundSchema>

/** What a phone is handed for a round: nothing of any other round or well. */
export const takenRoundSchema = z.object({
  version: z.literal(1),
  zone: z.string(),
  pictures: z.array(z.string()).optional(),
  round: phoneRoundSchema,
})
export type TakenRound = z.infer<typeof takenRoundSchema>

/** The photos of the places of wells, which a phone fetches one by one. */
export const photoIds = (wells: readonly PhoneWell[]): string[] => [
  ...new Set(wells.flatMap(({ place }) => place.photos.map(({ id }) => id))),
]
