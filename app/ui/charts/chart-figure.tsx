import type { ReactNode } from 'react'
import { TableFrame } from '@/app/ui/table-frame'
import { Legend } from './legend'
import { LookCloser } from './look-closer'
import { Picture } from './picture'
import { type At, type ChartExtras, type ChartPoint, type ChartSeries, onAxis } from './shapes'

export type ChartProps<A extends At> = {
  title: string
  /** One sentence that says what the picture shows. */
  says: string
  /** Unit of the values, already converted. */
  unit: string
  series: readonly ChartSeries<A>[]
  /** Depths read downwards. */
  downwards?: boolean
  /** The same in figures. */
  table: ReactNode
} & ChartExtras<A>

/**
 * A picture drawn on the server: no script, prints as it is, and its table stands below.
 * Series are told apart by the shape of their marks, values that were set aside by an open mark, values of which
 * only a bound is known by an arrowhead. Intervals, levels with a name, events and what is expected: ChartExtras.
 * `along` names what is counted along the foot, with its unit; null for time.
 */
export function ChartFigure<A extends At>({
  title,
  says,
  unit,
  series,
  downwards = false,
  table,
  along,
  ...extras
}: ChartProps<A> & { along: string | null }) {
  const filled = series.filter(({ stretches }) => stretches.some((stretch) => stretch.length > 0))
  const picture = { label: `${title}. ${says}`, series: filled, downwards, ...extras }
  return (
    <figure className="chart">
      <figcaption>
        <strong>{title}</strong>{' '}
        <span className="muted">
          ({unit}
          {along === null ? '' : `, against ${along}`})
        </span>
        <br />
        {says}
      </figcaption>
      {filled.length > 0 ? (
        <>
          <Picture size="wide" {...picture} />
          <Picture size="narrow" {...picture} />
          <Legend series={filled} {...extras} />
          <LookCloser {...{ title, unit, downwards, along }} series={filled.flatMap(closerOf)} />
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
function closerOf({ name, stretches }: ChartSeries<At>) {
  const points = stretches.flat()
  const named = (suffix: string, bound: ChartPoint<At>['bound']) => ({
    name: `${name}${suffix}`,
    points: points
      .filter((point) => point.bound === bound)
      .map(({ on, value }) => ({ at: onAxis(on), value })),
  })
  return [named('', undefined), named(', less than', 'below'), named(', more than', 'above')].filter(
    (one) => one.points.length > 0,
  )
}
