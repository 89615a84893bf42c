import type { ChartBand, ChartForecast, ChartLimit, ChartPoint } from '@/app/ui/charts/shapes'
import { TimeChart } from '@/app/ui/charts/time-chart'
import { sayCapacity, sayOutlook } from '@/lib/domain/logbook/yield-words'
import { displayUnit, formatQuantity, fromSi, type UnitSystem, unitSymbol } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'
import { courseBand } from '@/lib/domain/yield/decline/course'
import type { CapacityPoint, YieldStanding } from '@/lib/domain/yield/decline/types'
import type { Axis, DemandLevel } from './axis'
import { CapacityTable } from './capacity-table'

type Props = {
  standing: YieldStanding
  demand: DemandLevel
  axis: Axis
  today: Day
  units: UnitSystem
}

const DUE_PART = 0.75

/** Capacity as read and as adjusted to one static level and pumping time, with all that it is judged by. */
export function CapacityChart({ standing, demand, axis, today, units }: Props) {
  const unit = displayUnit('capacity', units)
  const show = (m2PerS: number) => formatQuantity(m2PerS, 'capacity', units)
  const { points, baseline } = standing
  const least = demand.m2PerS
  const limits: ChartLimit[] = [
    ...(baseline
      ? [
          { name: `baseline, ${show(baseline.m2PerS)}`, short: 'baseline', value: baseline.m2PerS },
          {
            name: `75 % of it, ${show(DUE_PART * baseline.m2PerS)}`,
            short: '75 %',
            value: DUE_PART * baseline.m2PerS,
          },
        ]
      : []),
    ...(demand.drawn && least !== null
      ? [{ name: `least that carries the demand, ${show(least)}`, short: 'demand', value: least }]
      : []),
  ].map((limit) => ({ ...limit, value: fromSi(limit.value, unit) }))
  const says = [
    sayCapacity(standing, units),
    least === null || demand.drawn
      ? ''
      : `At the deepest level read, ${show(least)} would still carry the demand.`,
  ]
  return (
    <TimeChart
      title="Specific capacity"
      says={says.filter(Boolean).join(' ')}
      unit={unitSymbol(unit)}
      series={[
        {
          name: 'season and pumping time taken out',
          mark: 'disc',
          stretches: stretchesOf(points, axis).map((stretch) =>
            stretch.flatMap((point) => chartPoint(point, 'adjustedM2PerS', units)),
          ),
        },
        {
          name: 'as read',
          mark: 'diamond',
          stretches: points.map((point) => chartPoint(point, 'capacityM2PerS', units)),
        },
      ]}
      bands={bandsOf(standing, axis, units)}
      limits={limits}
      events={axis.events}
      forecast={forecastOf({ standing, axis, demand, today, units })}
      span={axis.span}
      table={<CapacityTable points={points} units={units} />}
    />
  )
}

/** No line from before a rehabilitation to after it. */
function stretchesOf(points: readonly CapacityPoint[], { events }: Axis): CapacityPoint[][] {
  const ends = events.filter(({ name }) => /^re(habilitated|built)/.test(name)).map(({ on }) => on)
  const stretches: CapacityPoint[][] = []
  let passed = -1
  for (const point of points) {
    const now = ends.filter((end) => end <= point.on).length
    if (now !== passed) stretches.push([])
    passed = now
    stretches.at(-1)?.push(point)
  }
  return stretches
}

function chartPoint(
  point: CapacityPoint,
  which: 'adjustedM2PerS' | 'capacityM2PerS',
  units: UnitSystem,
): ChartPoint[] {
  const value = point[which]
  if (value === null) return []
  const used = which === 'adjustedM2PerS' || !point.setAside?.startsWith('left out')
  return [
    { id: `${which} ${point.on}`, on: point.on, value: fromSi(value, displayUnit('capacity', units)), used },
  ]
}

function bandsOf({ baseline, points }: YieldStanding, axis: Axis, units: UnitSystem): ChartBand[] {
  if (!baseline) return []
  const to = (m2PerS: number) => fromSi(m2PerS, displayUnit('capacity', units))
  const edge = { low: to(baseline.low), high: to(baseline.high) }
  const band = courseBand(points, baseline.since)
  return [
    {
      name: 'baseline, 80 % interval',
      points: [
        { on: baseline.since, ...edge },
        { on: axis.span.to, ...edge },
      ],
    },
    ...(band.length > 0
      ? [
          {
            name: 'smoothed course, about 80 % interval',
            points: band.map(({ on, low, high }) => ({ on, low: to(low), high: to(high) })),
          },
        ]
      : []),
  ]
}

function forecastOf({ standing, axis, demand, today, units }: Props): ChartForecast {
  const { baseline, outlook } = standing
  const to = (m2PerS: number) => fromSi(m2PerS, displayUnit('capacity', units))
  const { to75Percent, belowDemand } = outlook
  return {
    ...axis.ahead,
    crossings: [
      ...(to75Percent && baseline
        ? [
            {
              name: `75 % of baseline: ${sayOutlook(to75Percent, today)}`,
              value: to(DUE_PART * baseline.m2PerS),
              ...to75Percent,
            },
          ]
        : []),
      ...(belowDemand && demand.drawn && demand.m2PerS !== null
        ? [
            {
              name: `below demand: ${sayOutlook(belowDemand, today)}`,
              value: to(demand.m2PerS),
              ...belowDemand,
            },
          ]
        : []),
    ],
  }
}
