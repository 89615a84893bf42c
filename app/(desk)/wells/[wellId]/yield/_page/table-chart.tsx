import { TimeChart } from '@/app/ui/charts/time-chart'
import { type SeriesPoint, sayLevels } from '@/lib/domain/logbook/series'
import { sayTable } from '@/lib/domain/logbook/yield-words'
import { displayUnit, fromSi, type UnitSystem, unitSymbol } from '@/lib/domain/quantity'
import type { YieldStanding } from '@/lib/domain/yield/decline/types'
import type { Axis } from './axis'
import { ReadingsTable } from './readings-table'

type Props = { standing: YieldStanding; rest: readonly SeriesPoint[]; axis: Axis; units: UnitSystem }

/** The level at rest on the time axis of the capacity, so that a fall of the one is seen beside the other. */
export function TableChart({ standing, rest, axis, units }: Props) {
  const unit = displayUnit('depth', units)
  const levels = { rest: [...rest], pumping: [] }
  return (
    <TimeChart
      title="Water table: depth to water at rest"
      says={
        rest.length === 0
          ? sayLevels(levels, units)
          : `${sayLevels(levels, units)} ${sayTable(standing, units)}`
      }
      unit={unitSymbol(unit)}
      downwards
      series={[
        {
          name: 'at rest',
          mark: 'square',
          stretches: [rest.map((point) => ({ ...point, value: fromSi(point.value, unit) }))],
        },
      ]}
      events={axis.events}
      forecast={{ ...axis.ahead, crossings: [] }}
      span={axis.span}
      table={<ReadingsTable head="Depth to water at rest" points={rest} use="depth" units={units} />}
    />
  )
}
