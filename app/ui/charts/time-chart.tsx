import { scaleLinear, scaleUtc } from 'd3-scale'
import { line } from 'd3-shape'
import type { ReactNode } from 'react'
import { TableFrame } from '@/app/ui/table-frame'
import type { Day } from '@/lib/domain/quantity/day'
import { LookCloser } from './look-closer'

export type ChartPoint = { id: string; on: Day; value: number; used: boolean }
export type ChartSeries = {
  name: string
  mark: 'disc' | 'diamond'
  /** Stretches that a line joins; no line is drawn from one to the next. */
  stretches: readonly (readonly ChartPoint[])[]
}

type Props = {
  title: string
  /** One sentence that says what the picture shows. */
  says: string
  /** Unit of the values, already converted. */
  unit: string
  series: readonly ChartSeries[]
  /** Depths read downwards. */
  downwards?: boolean
  /** The same in figures. */
  table: ReactNode
}

const WIDTH = 640
const HEIGHT = 240
const MARGIN = { top: 12, right: 12, bottom: 28, left: 56 }

/**
 * Values over time as a picture drawn on the server: no script, prints as it is, and its table stands below.
 * Series are told apart by the shape of their marks, set-aside values by an open mark.
 */
export function TimeChart({ title, says, unit, series, downwards, table }: Props) {
  const points = series.flatMap(({ stretches }) => stretches.flat())
  if (points.length === 0) {
    return (
      <figure className="chart">
        <figcaption>
          <strong>{title}</strong> {says}
        </figcaption>
      </figure>
    )
  }
  const days = points.map((point) => onAxis(point.on).getTime())
  const values = points.map((point) => point.value)
  const x = scaleUtc([Math.min(...days), Math.max(...days) + 1], [MARGIN.left, WIDTH - MARGIN.right]).nice()
  const low = Math.min(...values)
  const high = Math.max(...values)
  const room = (high - low || Math.abs(high) || 1) * 0.08
  const [bottom, top] = downwards
    ? [MARGIN.top, HEIGHT - MARGIN.bottom]
    : [HEIGHT - MARGIN.bottom, MARGIN.top]
  const y = scaleLinear([low - room, high + room], [bottom, top]).nice(5)
  const path = line<ChartPoint>(
    (p) => x(onAxis(p.on)),
    (p) => y(p.value),
  ).defined((p) => p.used)
  return (
    <figure className="chart">
      <figcaption>
        <strong>{title}</strong> <span className="muted">({unit})</span>
        <br />
        {says}
      </figcaption>
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={`${title}. ${says}`}>
        {y.ticks(5).map((tick) => (
          <g key={tick}>
            <line
              className="chart-grid"
              x1={MARGIN.left}
              x2={WIDTH - MARGIN.right}
              y1={y(tick)}
              y2={y(tick)}
            />
            <text className="chart-label" x={MARGIN.left - 8} y={y(tick)} dy="0.35em" textAnchor="end">
              {tick.toLocaleString('en-US')}
            </text>
          </g>
        ))}
        {x.ticks(6).map((tick) => (
          <text key={tick.getTime()} className="chart-label" x={x(tick)} y={HEIGHT - 8} textAnchor="middle">
            {x.tickFormat(6)(tick)}
          </text>
        ))}
        {series.map(({ name, mark, stretches }, i) => (
          <g key={name} className={`chart-series chart-series-${i + 1}`}>
            {stretches.map((stretch) => (
              <path
                key={stretch[0]?.id}
                className="chart-line"
                d={path(stretch.filter((p) => p.used)) ?? ''}
              />
            ))}
            {stretches.flat().map((point) => (
              <Mark key={point.id} mark={mark} x={x(onAxis(point.on))} y={y(point.value)} used={point.used} />
            ))}
          </g>
        ))}
      </svg>
      {series.length > 1 ? (
        <p className="chart-legend">
          {series.map(({ name, mark }, i) => (
            <span key={name} className={`chart-series chart-series-${i + 1}`}>
              <svg viewBox="0 0 12 12" aria-hidden="true">
                <Mark mark={mark} x={6} y={6} used />
              </svg>
              {name}
            </span>
          ))}
        </p>
      ) : null}
      <LookCloser
        title={title}
        unit={unit}
        downwards={downwards ?? false}
        series={series.map(({ name, stretches }) => ({
          name,
          points: stretches.flat().map(({ on, value }) => ({ at: onAxis(on).getTime(), value })),
        }))}
      />
      <details>
        <summary>The same as a table</summary>
        <TableFrame label={`${title}, in figures`}>{table}</TableFrame>
      </details>
    </figure>
  )
}

function Mark({ mark, x, y, used }: { mark: ChartSeries['mark']; x: number; y: number; used: boolean }) {
  const className = used ? 'chart-mark' : 'chart-mark chart-mark-open'
  if (mark === 'disc') return <circle className={className} cx={x} cy={y} r={3} />
  return <path className={className} d={`M${x} ${y - 4.5}l4.5 4.5l-4.5 4.5l-4.5-4.5z`} />
}

/** A plain day on the axis, at noon UTC: no zone moves it to another day. */
function onAxis(day: Day): Date {
  return new Date(`${day}T12:00:00Z`)
}
