import type { ReactNode } from 'react'
import { TableFrame } from '@/app/ui/table-frame'
import { Legend } from './legend'
import { LookCloser } from './look-closer'
import { Picture } from './picture'
import { type ChartExtras, type ChartPoint, type ChartSeries, onAxis } from './shapes'

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
} & ChartExtras

/**
 * Values over time as a picture drawn on the server: no script, prints as it is, and its table stands below.
 * Series are told apart by the shape of their marks, values that were set aside by an open mark, values of which
 * only a bound is known by an arrowhead. Intervals, levels with a name, events and what is expected: ChartExtras.
 */
export function TimeChart({ title, says, unit, series, downwards = false, table, ...extras }: Props) {
  const filled = series.filter(({ stretches }) => stretches.some((stretch) => stretch.length > 0))
  const picture = { label: `${title}. ${says}`, series: filled, downwards, ...extras }
  return (
    <figure className="chart">
      <figcaption>
        <strong>{title}</strong> <span className="muted">({unit})</span>
        <br />
        {says}
      </figcaption>
      {filled.length > 0 ? (
        <>
          <Picture size="wide" {...picture} />
          <Picture size="narrow" {...picture} />
          <Legend series={filled} {...extras} />
          <LookCloser title={title} unit={unit} downwards={downwards} series={filled.flatMap(closerOf)} />
          <details>
            <summary>The same as a table</summary>
            <TableFrame label={`${title}, in figures`}>{table}</TableFrame>
          </details>
        </>
      ) : null}
    </figure>
  )
}

/** A series as the chart on demand has it; values of which only a bound is known stand under a name of their own. */
function closerOf({ name, stretches }: ChartSeries) {
  const points = stretches.flat()
  const named = (suffix: string, bound: ChartPoint['bound']) => ({
    name: `${name}${suffix}`,
    points: points
      .filter((point) => point.bound === bound)
      .map(({ on, value }) => ({ at: onAxis(on).getTime(), value })),
  })
  return [named('', undefined), named(', less than', 'below'), named(', more than', 'above')].filter(
    (one) => one.points.length > 0,
  )
}
