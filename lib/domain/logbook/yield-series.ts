import { type Day, dayFor, formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import { availableDrawdown } from '@/lib/domain/yield/tests'
import type { CurrentFact } from './entries'
import type { SeriesPoint } from './series'

/** What happened to a well that its yield must be read with, oldest first. */
export type YieldMark = { on: Day; what: string; resets: boolean }

const MARKS: Readonly<Record<string, { what: string; resets: boolean }>> = {
  rehabilitated: { what: 'rehabilitated', resets: true },
  rebuilt: { what: 'rebuilt', resets: true },
  'pump-replaced': { what: 'pump replaced', resets: false },
  flooded: { what: 'flooded', resets: false },
  'ran-dry': { what: 'ran dry', resets: false },
}

export function yieldMarks(facts: readonly CurrentFact[]): YieldMark[] {
  const marks = facts.flatMap(({ fact, on }) => {
    const mark = fact.kind === 'event' ? MARKS[fact.event] : undefined
    return mark ? [{ on, ...mark }] : []
  })
  return marks.sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0))
}

/** Flow readings in m³/s, oldest first. */
export function flowSeries(facts: readonly CurrentFact[]): SeriesPoint[] {
  return facts.flatMap(({ id, on, fact }) =>
    fact.kind === 'flow-reading' ? [{ id, on, value: fact.flow.si, used: true }] : [],
  )
}

/** The chart of flow in one plain sentence: what was read, and what flow alone cannot say. */
export function sayFlow(points: readonly SeriesPoint[], units: UnitSystem): string {
  const last = points.at(-1)
  if (!last) return 'No flow has been read yet.'
  const most = Math.max(...points.map((point) => point.value))
  const show = (m3PerS: number) => formatQuantity(m3PerS, 'flow', units)
  return `Last ${show(last.value)} on ${dayFor(last.on, units)}, at most ${show(most)} in ${points.length} ${points.length === 1 ? 'reading' : 'readings'}. Flow alone cannot tell pump, water table and well apart.`
}

/** Water kept over the intake, m. Common practice, no published source. */
const INTAKE_COVER_M = 0.3

/**
 * The least capacity, m²/s, that carries the demand at the deepest level at rest of the record; null where demand,
 * intake or level is not known, or where the intake is not covered at that level.
 */
export function capacityForDemand(
  well: { demandM3PerS: number | null; intakeDepthM: number | null },
  rest: readonly Pick<SeriesPoint, 'value'>[],
): number | null {
  if (well.demandM3PerS === null) return null
  const available = availableDrawdown({
    staticM: rest.length === 0 ? null : Math.max(...rest.map((point) => point.value)),
    intakeM: well.intakeDepthM,
    keepAboveIntakeM: INTAKE_COVER_M,
  })
  return available.kind === 'available' ? well.demandM3PerS / available.drawdownM : null
}
