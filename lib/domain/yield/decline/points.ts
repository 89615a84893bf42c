import type { CapacityFit } from './capacity'
import type { WellRecord } from './record'
import type { CapacityPoint } from './types'

/** One point a visit that shows capacity or was left out, in time order, for charts and tables. */
export function pointsOf(record: WellRecord, fits: readonly (CapacityFit | null)[]): CapacityPoint[] {
  const adjusted = new Map<number, number>()
  record.stretches.forEach((stretch, k) => {
    stretch.rows.forEach((row, i) => {
      const value = fits[k]?.adjusted[i]
      if (value !== undefined) adjusted.set(row.visit, Math.exp(value))
    })
  })
  const absolute = record.flow.fresh !== null || record.has.fitted > 0
  return record.readings.flatMap((reading, i) => {
    const drawdownM =
      reading.staticM !== null && reading.pumpingM !== null ? reading.pumpingM - reading.staticM : null
    const asRead =
      reading.flowM3PerS !== null && drawdownM !== null && drawdownM > 0
        ? reading.flowM3PerS / drawdownM
        : reading.fittedM2PerS
    const even = absolute ? (adjusted.get(i) ?? null) : null
    if (asRead === null && even === null && reading.note === null) return []
    return [
      {
        on: reading.on,
        capacityM2PerS: asRead,
        adjustedM2PerS: even,
        staticM: reading.staticM,
        setAside: reading.note,
      },
    ]
  })
}
