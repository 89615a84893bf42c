import { scaleLinear, scaleUtc } from 'd3-scale'
import { line } from 'd3-shape'
import type { Day } from '@/lib/domain/quantity/day'

export type ChartPoint = { id: string; on: Day; value: number; used: boolean }
export type ChartSeries = {
  name: string
  mark: 'disc' | 'diamond'
  /** Stretches that a line joins; no line is drawn from one to the next. */
  stretches: readonly (readonly ChartPoint[])[]
}

/** Drawn twice, once for each width of screen: the letters keep their size, and nothing is squeezed. */
const SIZES = {
  wide: { width: 640, height: 240, ticks: 6 },
  narrow: { width: 340, height: 210, ticks: 4 },
} as const

type Props = {
  size: keyof typeof SIZES
  label: string
  series: readonly ChartSeries[]
  /** Depths read downwards. */
  downwards: boolean
}

const TOP = 12
const RIGHT = 14
const FOOT = 28
const LETTER = 7.4
const GAP = 8
const MONTH_MS = 30 * 86_400_000

/** Points over time, at least one. A picture without script; values set aside have an open mark and no line. */
export function Picture({ size, label, series, downwards }: Props) {
  const { width, height, ticks } = SIZES[size]
  const points = series.flatMap(({ stretches }) => stretches.flat())
  const [bottom, top] = downwards ? [TOP, height - FOOT] : [height - FOOT, TOP]
  const values = points.map((point) => point.value)
  const y = scaleLinear(rangeOf(values, !downwards), [bottom, top]).nice(5)
  const labels = y.ticks(5).map((tick) => ({ tick, text: tick.toLocaleString('en-US') }))
  const left = Math.max(...labels.map(({ text }) => text.length)) * LETTER + GAP * 2
  const days = points.map((point) => onAxis(point.on).getTime())
  const [first, last] = [Math.min(...days), Math.max(...days)]
  const room = first === last ? MONTH_MS : (last - first) * 0.02
  const x = scaleUtc([first - room, last + room], [left, width - RIGHT])
  const path = line<ChartPoint>(
    (p) => x(onAxis(p.on)),
    (p) => y(p.value),
  )
  return (
    <svg className={`chart-${size}`} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={label}>
      {labels.map(({ tick, text }) => (
        <g key={tick}>
          <line className="chart-grid" x1={left} x2={width - RIGHT} y1={y(tick)} y2={y(tick)} />
          <text className="chart-label" x={left - GAP} y={y(tick)} dy="0.35em" textAnchor="end">
            {text}
          </text>
        </g>
      ))}
      {x.ticks(ticks).map((tick) => (
        <text
          key={tick.getTime()}
          className="chart-label"
          x={x(tick)}
          y={height - 8}
          textAnchor={x(tick) > width - 3 * RIGHT ? 'end' : 'middle'}
        >
          {x.tickFormat(ticks)(tick)}
        </text>
      ))}
      {series.map(({ name, mark, stretches }, i) => (
        <g key={name} className={`chart-series chart-series-${i + 1}`}>
          {stretches.map((stretch) => (
            <path
              key={stretch[0]?.id}
              className="chart-line"
              d={path(stretch.filter((point) => point.used)) ?? ''}
            />
          ))}
          {stretches.flat().map(({ id, on, value, used }) => (
            <Mark key={`${id} ${value}`} mark={mark} x={x(onAxis(on))} y={y(value)} used={used} />
          ))}
        </g>
      ))}
    </svg>
  )
}

/** The ends of the value axis with a little room; a count that never went below zero is not shown below it. */
function rangeOf(values: readonly number[], floorAtZero: boolean): [number, number] {
  const low = Math.min(...values)
  const high = Math.max(...values)
  const room = (high - low || Math.abs(high) || 1) * 0.08
  return [floorAtZero && low >= 0 ? Math.max(0, low - room) : low - room, high + room]
}

export function Mark({
  mark,
  x,
  y,
  used,
}: {
  mark: ChartSeries['mark']
  x: number
  y: number
  used: boolean
}) {
  const className = used ? 'chart-mark' : 'chart-mark chart-mark-open'
  if (mark === 'disc') return <circle className={className} cx={x} cy={y} r={3.5} />
  return <path className={className} d={`M${x} ${y - 5}l5 5l-5 5l-5-5z`} />
}

/** A plain day on the axis, at noon UTC: no zone moves it to another day. */
export function onAxis(day: Day): Date {
  return new Date(`${day}T12:00:00Z`)
}
