import {
  type BrushQuestion,
  type BrushReading,
  type CartridgeEvent,
  type CartridgeFacts,
  type CartridgeQuestion,
  hoursBySun,
  hoursByVolume,
} from '@/lib/domain/pump'
import type { Day } from '@/lib/domain/quantity/day'
import { median, medianAbsoluteDeviation } from '@/lib/domain/stats'
import type { Duty } from '@/lib/domain/upkeep/types'
import type { CurrentFact } from './entries'
import { type Equipment, NO_EQUIPMENT } from './equipment'

/** Readings of one visit on one day, side by side. */
export type Side = {
  on: Day
  volumeM3: number | null
  hours: number | null
  flowM3PerS: number | null
  dropPa: number | null
  /** Before the cartridge, over the air's own pressure. */
  beforePa: number | null
  /** Across which cartridge the drop was read, where it was changed on that visit and somebody said so. */
  cartridge: 'old' | 'new' | null
  pumpingM: number | null
  amps: number | null
  volts: number | null
  lengthsM: number[]
}

/** The readings of each visit put together, in order of day. */
export function sideBySide(facts: readonly CurrentFact[]): Side[] {
  const sides = new Map<string, Side>()
  for (const { fact, on, visitId } of facts) {
    const key = `${on} ${visitId}`
    let side = sides.get(key)
    if (!side) {
      side = { ...NOTHING_READ, on, lengthsM: [] }
      sides.set(key, side)
    }
    if (fact.kind === 'meter-reading' && fact.explained !== 'kept') {
      if (fact.meter === 'volume') side.volumeM3 = fact.reading.si
      else side.hours = fact.reading.si / 3600
    }
    if (fact.kind === 'flow-reading') side.flowM3PerS = fact.flow.si
    if (fact.kind === 'pressure-reading') {
      if (fact.before) side.beforePa = fact.before.si
      side.cartridge = fact.cartridge ?? side.cartridge
      if (fact.before && fact.after) side.dropPa = fact.before.si - fact.after.si
    }
    if (fact.kind === 'level-reading' && fact.state === 'pumping') side.pumpingM = fact.level.si
    if (fact.kind === 'electrical-reading') {
      side.amps = fact.amps?.si ?? side.amps
      side.volts = fact.volts?.si ?? side.volts
    }
    if (fact.kind === 'brush-length') side.lengthsM = fact.lengths.map((length) => length.si)
  }
  return [...sides.values()]
}

const NOTHING_READ: Omit<Side, 'on' | 'lengthsM'> = {
  volumeM3: null,
  hours: null,
  flowM3PerS: null,
  dropPa: null,
  beforePa: null,
  cartridge: null,
  pumpingM: null,
  amps: null,
  volts: null,
}

/** Days on which a new cartridge or set of brushes began: the register's word, then those on which the duty was done. */
export const begunOn = (duty: Pick<Duty, 'lastDoneOn'>, doneOn: readonly Day[]): Day[] =>
  duty.lastDoneOn === null ? [...doneOn] : [duty.lastDoneOn, ...doneOn].sort()

/**
 * What is asked of the cartridge in place; null where no drop was ever read.
 * Drop grows with flow: it is carried to the flow that the model names, or else to the middle of the flows at which it
 * was read; the doubt about that middle goes into the interval.
 */
export function cartridgeQuestion(
  terminalPa: number,
  facts: readonly CurrentFact[],
  changes: readonly Day[],
  model: CartridgeFacts | null = null,
): CartridgeQuestion | null {
  const sides = sideBySide(facts)
  const readings = sides.flatMap(({ on, volumeM3, flowM3PerS, dropPa, cartridge }) =>
    dropPa !== null && dropPa > 0
      ? [{ on, volumeM3, flowM3PerS: flowM3PerS || null, dropPa, of: cartridge }]
      : [],
  )
  if (readings.length === 0 || !(terminalPa > 0)) return null
  const flows = readings.flatMap((reading) => (reading.flowM3PerS === null ? [] : [reading.flowM3PerS]))
  // Drops of which no flow was read cannot be carried to the model's.
  const named = flows.length > 0 ? (model?.referenceFlowM3PerS ?? null) : null
  return {
    terminalPa,
    referenceFlowM3PerS: named ?? (flows.length > 0 ? median(flows) : 1),
    referenceFlowDoubt: named === null ? middleDoubt(flows) : 0,
    events: blindingEvents(facts),
    volumes: sides.flatMap(({ on, volumeM3 }) => (volumeM3 === null ? [] : [{ on, count: volumeM3 }])),
    changes,
    readings,
  }
}

/** Standard error of a median is so many times that of a mean, for normal values: √(π/2). */
const MEDIAN_ERROR = 1.2533
/** A fifth: how much flows of one pump differ while two readings cannot show it yet. */
const USUAL_SPREAD = 0.2

/** Deviation of the logarithm of the middle of some flows; 0 where none was read and none is reckoned with. */
function middleDoubt(flows: readonly number[]): number {
  if (flows.length === 0) return 0
  const spread =
    flows.length < 4 ? USUAL_SPREAD : Math.max(0.02, medianAbsoluteDeviation(flows.map(Math.log)))
  return (MEDIAN_ERROR * spread) / Math.sqrt(flows.length)
}

/** What can close a cartridge at once, in the words of its sentence. */
const BLINDS: Readonly<Record<string, string>> = { flooded: 'flood', 'iron-bloom': 'iron bloom' }

function blindingEvents(facts: readonly CurrentFact[]): CartridgeEvent[] {
  return facts.flatMap(({ fact, on }) =>
    fact.kind === 'event' && BLINDS[fact.event] ? [{ on, what: BLINDS[fact.event] ?? '' }] : [],
  )
}

export type BrushAsked =
  | { kind: 'asked'; question: BrushQuestion }
  | { kind: 'cannot-say'; why: string }
  | null

/**
 * What is asked of the brushes in place; null where no length was ever measured.
 * The new length is that of the model; else the middle of what sets measured on the days they were put in, or else the
 * longest ever measured.
 */
export function brushQuestion(
  minimumM: number,
  facts: readonly CurrentFact[],
  replacedOn: readonly Day[],
  { pump, latitude }: Pick<Equipment, 'pump' | 'latitude'> = NO_EQUIPMENT,
): BrushAsked {
  const sides = sideBySide(facts)
  const { readings, hoursFrom } = withHours(sides, pump?.power === 'sun' ? latitude : null, replacedOn)
  const measured = readings.filter((reading) => reading.lengthsM.length > 0)
  if (measured.length === 0) return null
  const longest = measured.map((reading) => ({ on: reading.on, m: Math.max(...reading.lengthsM) }))
  const most = Math.max(...longest.map(({ m }) => m))
  // On the day of a change the old set is often measured too: what is nearer to the least length is of that one.
  const fresh = longest.filter(({ on, m }) => replacedOn.includes(on) && m > (most + minimumM) / 2)
  const newM = pump?.brushNewM ?? (fresh.length > 0 ? median(fresh.map(({ m }) => m)) : most)
  if (!(minimumM > 0) || newM <= minimumM) {
    return { kind: 'cannot-say', why: 'no brush longer than the minimum length was ever measured' }
  }
  return { kind: 'asked', question: { newM, minimumM, readings, replacedOn, hoursFrom } }
}

/**
 * Lengths and hours as read; where no hour meter was ever read, with hours by volume and flow, or by the hours of sun for
 * a pump on panels alone (`latitude` given).
 */
function withHours(
  sides: readonly Side[],
  latitude: number | null,
  replacedOn: readonly Day[],
): { readings: BrushReading[]; hoursFrom: 'meter' | 'volume' | 'sun' } {
  const asRead = sides.flatMap(({ on, hours, lengthsM }) =>
    hours !== null || lengthsM.length > 0 ? [{ on, hours, lengthsM }] : [],
  )
  if (asRead.some((reading) => reading.hours !== null)) return { readings: asRead, hoursFrom: 'meter' }
  const volumes = sides.flatMap(({ on, volumeM3 }) => (volumeM3 === null ? [] : [{ on, volumeM3 }]))
  const flows = sides.flatMap(({ flowM3PerS }) => (flowM3PerS === null ? [] : [flowM3PerS]))
  const byVolume = hoursByVolume(volumes, flows)
  const estimated =
    byVolume.kind === 'cannot-say' && latitude !== null
      ? hoursBySun([...replacedOn, ...asRead.map(({ on }) => on)], latitude, null)
      : byVolume
  if (estimated.kind === 'cannot-say') return { readings: asRead, hoursFrom: 'meter' }
  const lengths = new Map(asRead.map(({ on, lengthsM }) => [on, lengthsM]))
  const counted = estimated.counts.map(({ on, hours }) => ({ on, hours, lengthsM: lengths.get(on) ?? [] }))
  const days = new Set(counted.map(({ on }) => on))
  return {
    readings: [...counted, ...asRead.filter(({ on }) => !days.has(on))],
    hoursFrom: estimated.from,
  }
}
