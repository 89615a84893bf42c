import { type Forecast, forecastBrushes, forecastCartridge } from '@/lib/domain/pump'
import type { Day } from '@/lib/domain/quantity/day'
import { median } from '@/lib/domain/stats'
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
      why: [forecast.why, ...forecast.warnings].join('; '),
    },
  ]
}

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

/** Drop grows with flow: it is carried to the middle of the flows at which it was read. */
function cartridge(
  terminalPa: number,
  facts: readonly CurrentFact[],
  changes: readonly Day[],
): Forecast | null {
  const readings = sideBySide(facts).flatMap(({ on, volumeM3, flowM3PerS, dropPa }) =>
    dropPa !== null && dropPa > 0 ? [{ on, volumeM3, flowM3PerS: flowM3PerS || null, dropPa }] : [],
  )
  if (readings.length === 0 || !(terminalPa > 0)) return null
  const flows = readings.flatMap((reading) => (reading.flowM3PerS === null ? [] : [reading.flowM3PerS]))
  const referenceFlowM3PerS = flows.length > 0 ? median(flows) : 1
  return forecastCartridge({ terminalPa, referenceFlowM3PerS, changes, readings })
}

/** The new length is what a set measured on the day it was put in, or else the longest ever measured. */
function brushes(
  minimumM: number,
  facts: readonly CurrentFact[],
  replacedOn: readonly Day[],
): Forecast | null {
  const readings = sideBySide(facts).flatMap(({ on, hours, lengthsM }) =>
    lengthsM.length > 0 ? [{ on, hours, lengthsM }] : [],
  )
  const longest = (list: typeof readings) => Math.max(...list.flatMap((reading) => reading.lengthsM))
  if (readings.length === 0) return null
  const fresh = readings.filter((reading) => replacedOn.includes(reading.on))
  const newM = longest(fresh.length > 0 ? fresh : readings)
  if (!(minimumM > 0) || newM <= minimumM) {
    return { kind: 'cannot-say', why: 'no brush longer than the minimum length was ever measured' }
  }
  return forecastBrushes({ newM, minimumM, readings, replacedOn })
}
