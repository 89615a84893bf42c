import {
  type BrushReading,
  type CartridgeEvent,
  type Forecast,
  forecastBrushes,
  forecastCartridge,
  hoursByVolume,
  LATE_OVER_EARLY,
} from '@/lib/domain/pump'
import type { Day } from '@/lib/domain/quantity/day'
import { median, medianAbsoluteDeviation } from '@/lib/domain/stats'
import type { ConditionForecast, Duty } from '@/lib/domain/upkeep/types'
import type { CurrentFact } from './entries'

/**
 * When the measured condition of a duty will be reached, from the readings of the logbook; empty for a
 * duty without one, and where nothing was ever measured for it. `doneOn` are the days on which the duty was
 * done: each began a new cartridge or a new set of brushes.
 */
export function measuredCondition(
  duty: Duty,
  facts: readonly CurrentFact[],
  doneOn: readonly Day[],
): ConditionForecast[] {
  if (!duty.condition) return []
  const { kind, limitSi } = duty.condition
  const begun = duty.lastDoneOn === null ? [...doneOn] : [duty.lastDoneOn, ...doneOn].sort()
  const forecast =
    kind === 'pressure_drop' ? cartridge(limitSi, facts, begun) : brushes(limitSi, facts, begun)
  if (forecast === null) return []
  if (forecast.kind === 'cannot-say') return [{ kind, cannotSay: forecast.why }]
  return [
    {
      kind,
      due: forecast.on,
      from: forecast.low,
      to: forecast.high,
      why: [forecast.why, sayCheapest(forecast.changeBy), ...forecast.warnings].join('; '),
    },
  ]
}

const sayCheapest = (changeBy: Day): string =>
  `changing by ${changeBy} costs least, a late day counted ${LATE_OVER_EARLY} times an early one`

/** Readings of one visit on one day, side by side. */
type Side = {
  on: Day
  volumeM3: number | null
  hours: number | null
  flowM3PerS: number | null
  dropPa: number | null
  lengthsM: number[]
}

function sideBySide(facts: readonly CurrentFact[]): Side[] {
  const sides = new Map<string, Side>()
  for (const { fact, on, visitId } of facts) {
    const key = `${on} ${visitId}`
    let side = sides.get(key)
    if (!side) {
      side = { on, volumeM3: null, hours: null, flowM3PerS: null, dropPa: null, lengthsM: [] }
      sides.set(key, side)
    }
    if (fact.kind === 'meter-reading' && fact.explained !== 'kept') {
      if (fact.meter === 'volume') side.volumeM3 = fact.reading.si
      else side.hours = fact.reading.si / 3600
    }
    if (fact.kind === 'flow-reading') side.flowM3PerS = fact.flow.si
    if (fact.kind === 'pressure-reading' && fact.before && fact.after)
      side.dropPa = fact.before.si - fact.after.si
    if (fact.kind === 'brush-length') side.lengthsM = fact.lengths.map((length) => length.si)
  }
  return [...sides.values()]
}

/**
 * Drop grows with flow: it is carried to the middle of the flows at which it was read, and the doubt about that middle
 * goes into the interval.
 */
function cartridge(
  terminalPa: number,
  facts: readonly CurrentFact[],
  changes: readonly Day[],
): Forecast | null {
  const sides = sideBySide(facts)
  const readings = sides.flatMap(({ on, volumeM3, flowM3PerS, dropPa }) =>
    dropPa !== null && dropPa > 0 ? [{ on, volumeM3, flowM3PerS: flowM3PerS || null, dropPa }] : [],
  )
  if (readings.length === 0 || !(terminalPa > 0)) return null
  const flows = readings.flatMap((reading) => (reading.flowM3PerS === null ? [] : [reading.flowM3PerS]))
  return forecastCartridge({
    terminalPa,
    referenceFlowM3PerS: flows.length > 0 ? median(flows) : 1,
    referenceFlowDoubt: middleDoubt(flows),
    events: blindingEvents(facts),
    volumes: sides.flatMap(({ on, volumeM3 }) => (volumeM3 === null ? [] : [{ on, count: volumeM3 }])),
    changes,
    readings,
  })
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

function blindingEvents(facts: readonly CurrentFact[]): CartridgeEvent[] {
  return facts.flatMap(({ fact, on }) =>
    fact.kind === 'event' && fact.event === 'flooded' ? [{ on, what: 'flood' }] : [],
  )
}

/** The new length is the middle of what sets measured on the days they were put in, or else the longest ever measured. */
function brushes(
  minimumM: number,
  facts: readonly CurrentFact[],
  replacedOn: readonly Day[],
): Forecast | null {
  const sides = sideBySide(facts)
  const { readings, hoursFrom } = withHours(sides)
  const measured = readings.filter((reading) => reading.lengthsM.length > 0)
  if (measured.length === 0) return null
  const longest = measured.map((reading) => ({ on: reading.on, m: Math.max(...reading.lengthsM) }))
  const fresh = longest.filter((reading) => replacedOn.includes(reading.on))
  const newM = fresh.length > 0 ? median(fresh.map(({ m }) => m)) : Math.max(...longest.map(({ m }) => m))
  if (!(minimumM > 0) || newM <= minimumM) {
    return { kind: 'cannot-say', why: 'no brush longer than the minimum length was ever measured' }
  }
  return forecastBrushes({ newM, minimumM, readings, replacedOn, hoursFrom })
}

/** Lengths and hours as read; where no hour meter was ever read, with hours by volume and flow. */
function withHours(sides: readonly Side[]): {
  readings: BrushReading[]
  hoursFrom: 'meter' | 'volume'
} {
  const asRead = sides.flatMap(({ on, hours, lengthsM }) =>
    hours !== null || lengthsM.length > 0 ? [{ on, hours, lengthsM }] : [],
  )
  if (asRead.some((reading) => reading.hours !== null)) return { readings: asRead, hoursFrom: 'meter' }
  const volumes = sides.flatMap(({ on, volumeM3 }) => (volumeM3 === null ? [] : [{ on, volumeM3 }]))
  const flows = sides.flatMap(({ flowM3PerS }) => (flowM3PerS === null ? [] : [flowM3PerS]))
  const estimated = hoursByVolume(volumes, flows)
  if (estimated.kind === 'cannot-say') return { readings: asRead, hoursFrom: 'meter' }
  const lengths = new Map(asRead.map(({ on, lengthsM }) => [on, lengthsM]))
  const counted = estimated.counts.map(({ on, hours }) => ({ on, hours, lengthsM: lengths.get(on) ?? [] }))
  const days = new Set(counted.map(({ on }) => on))
  return { readings: [...counted, ...asRead.filter(({ on }) => !days.has(on))], hoursFrom: 'volume' }
}
