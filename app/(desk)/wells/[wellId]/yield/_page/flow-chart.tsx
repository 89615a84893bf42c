import { TimeChart } from '@/app/ui/charts/time-chart'
import type { SeriesPoint } from '@/lib/domain/logbook/series'
import { sayFlow } from '@/lib/domain/logbook/yield-series'
import { displayUnit, fromSi, type UnitSystem, unitSymbol } from '@/lib/domain/quantity'
import type { Axis } from './axis'
import { ReadingsTable } from './readings-table'

/** The flow, where it is all there is to see. */
export function FlowChart({
  flow,
  axis,
  units,
}: {
  flow: readonly SeriesPoint[]
  axis: Axis
  units: UnitSystem
}) {
  const unit = displayUnit('flow', units)
  return (
    <TimeChart
      title="Flow"
      says={sayFlow(flow, units)}
      unit={unitSymbol(unit)}
      series={[
        {
          name: 'flow',
          mark: 'triangle',
          stretches: [flow.map((point) => ({ ...point, value: fromSi(point.value, unit) }))],
        },
      ]}
      events={axis.events}
      forecast={{ ...axis.ahead, crossings: [] }}
      span={axis.span}
      table={<ReadingsTable head="Flow" points={flow} use="flow" units={units} />}
    />
  )
}
