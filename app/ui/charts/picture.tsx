import { line } from 'd3-shape'
import { type Frame, frameOf, GAP, LETTER, SIZES } from './frame'
import { Ahead, Bands, Crossing, Events, Limits } from './layers'
import { Mark } from './mark'
import type { At, ChartExtras, ChartPoint, ChartSeries } from './shapes'

type Props = {
  size: keyof typeof SIZES
  label: string
  series: readonly ChartSeries<At>[]
  /** Depths read downwards. */
  downwards: boolean
} & ChartExtras<At>

/** Points over time or use, at least one. A picture without script; values set aside have an open mark and no line. */
export function Picture({ size, label, series, downwards, ...extras }: Props) {
  const { width, height } = SIZES[size]
  const frame = frameOf(size, series, downwards, extras)
  const marks = series.flatMap(({ stretches }) =>
    stretches.flat().map(({ on, value }) => ({ x: frame.x(on), y: frame.y(value) })),
  )
  const { bands = [], limits = [], events = [], forecast } = extras
  return (
    <svg className={`chart-${size}`} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={label}>
      {forecast ? <Ahead from={forecast.from} frame={frame} /> : null}
      <Axes frame={frame} width={width} height={height} />
      <Bands bands={bands} frame={frame} />
      <Events events={events} frame={frame} />
      <Limits limits={limits} frame={frame} atEnd={Boolean(forecast)} marks={marks} />
      {series.map((one, i) => (
        <SeriesMarks key={one.name} series={one} number={i + 1} frame={frame} downwards={downwards} />
      ))}
      {forecast?.crossings.map((crossing) => (
        <Crossing key={crossing.name} crossing={crossing} frame={frame} />
      ))}
    </svg>
  )
}

function Axes({ frame, width, height }: { frame: Frame; width: number; height: number }) {
  return (
    <>
      {frame.yTicks.map(({ at, text }) => (
        <g key={text}>
          <line className="chart-grid" x1={frame.left} x2={frame.right} y1={at} y2={at} />
          <text className="chart-label" x={frame.left - GAP} y={at} dy="0.35em" textAnchor="end">
            {text}
          </text>
        </g>
      ))}
      {frame.xTicks.map(({ at, text }) => (
        <text
          key={at}
          className="chart-label"
          x={at}
          y={height - 8}
          textAnchor={at + (text.length * LETTER) / 2 > width ? 'end' : 'middle'}
        >
          {text}
        </text>
      ))}
    </>
  )
}

type SeriesProps = { series: ChartSeries<At>; number: number; frame: Frame; downwards: boolean }

function SeriesMarks({ series: { mark, stretches }, number, frame, downwards }: SeriesProps) {
  const path = line<ChartPoint<At>>(
    (p) => frame.x(p.on),
    (p) => frame.y(p.value),
  )
  return (
    <g className={`chart-series chart-series-${number}`}>
      {stretches.map((stretch) => (
        <path
          key={stretch[0]?.id}
          className="chart-line"
          d={path(stretch.filter((point) => point.used && !point.bound)) ?? ''}
        />
      ))}
      {stretches.flat().map(({ id, on, value, used, bound }) => (
        <Mark
          key={`${id} ${value}`}
          {...{ mark, used, bound, downwards }}
          x={frame.x(on)}
          y={frame.y(value)}
        />
      ))}
    </g>
  )
}
