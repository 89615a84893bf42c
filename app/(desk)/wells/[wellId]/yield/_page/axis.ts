import type { ChartEvent, ChartForecast, ChartSpan } from '@/app/ui/charts/shapes'
import { showDay } from '@/app/ui/show-day'
import type { YieldMark } from '@/lib/domain/logbook/yield-series'
import type { UnitSystem } from '@/lib/domain/quantity'
import { addDays, type Day, daysBetween, LAST_DAY } from '@/lib/domain/quantity/day'
import type { YieldStanding } from '@/lib/domain/yield/decline/types'

/** What all charts of the page share: one time axis, the events on it, and where the readings end. */
export type Axis = { span: ChartSpan; events: ChartEvent[]; ahead: Pick<ChartForecast, 'from'> }

/** The least capacity that carries the demand, m²/s (null where not known), and whether it is drawn or only told. */
export type DemandLevel = { m2PerS: number | null; drawn: boolean }

/** A level further below the readings than this part of them would press them flat: it is told, not drawn. */
const IN_SIGHT = 0.4

export function demandLevel(standing: YieldStanding, m2PerS: number | null): DemandLevel {
  const values = standing.points.flatMap((point) => point.adjustedM2PerS ?? point.capacityM2PerS ?? [])
  return { m2PerS, drawn: m2PerS !== null && m2PerS >= IN_SIGHT * Math.min(...values) }
}

/** How far ahead the axis goes at most, as a part of the record; later ends are drawn as open. */
const AHEAD_PART = 0.75
const AHEAD_LEAST_DAYS = 730

export function axisOf(
  standing: YieldStanding,
  readings: readonly { on: Day }[],
  marks: readonly YieldMark[],
  demand: DemandLevel,
  { today, units }: { today: Day; units: UnitSystem },
): Axis {
  const days = [...readings, ...standing.points].map(({ on }) => on).sort()
  const [first = today, last = today] = [days[0], days.at(-1)]
  const reach = Math.max(AHEAD_LEAST_DAYS, AHEAD_PART * daysBetween(first, last))
  const furthest = addDays(last, Math.round(reach))
  const { to75Percent, belowDemand } = standing.outlook
  // A date that lies wholly beyond the axis is told in words; an end beyond it is an arrow at the edge.
  const near = [to75Percent, demand.drawn ? belowDemand : null].filter(
    (one) => (one?.low ?? one?.on ?? LAST_DAY) <= furthest,
  )
  const wanted = near.flatMap((one) => one?.high ?? furthest)
  const to = [furthest, [last, ...wanted].sort().at(-1) ?? last].sort()[0] ?? last
  return {
    span: { from: addDays(first, -30), to: addDays([to, today].sort()[1] ?? to, 30) },
    events: marks.map(({ on, what }) => ({ on, name: `${what}, ${showDay(on, units)}` })),
    ahead: { from: last },
  }
}
