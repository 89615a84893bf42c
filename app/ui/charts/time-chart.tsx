import type { ReactNode } from 'react'
import { TableFrame } from '@/app/ui/table-frame'
import { LookCloser } from './look-closer'
import { type ChartSeries, Mark, onAxis, Picture } from './picture'

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

/**
 * Values over time as a picture drawn on the server: no script, prints as it is, and its table stands below.
 * Series are told apart by the shape of their marks, values that were set aside by an open mark.
 */
export function TimeChart({ title, says, unit, series, downwards = false, table }: Props) {
  const filled = series.filter(({ stretches }) => stretches.some((stretch) => stretch.length > 0))
  const aside = filled.some(({ stretches }) => stretches.flat().some((point) => !point.used))
  const picture = { label: `${title}. ${says}`, series: filled, downwards }
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
          <Legend series={filled} aside={aside} />
          <LookCloser
            title={title}
            unit={unit}
            downwards={downwards}
            series={filled.map(({ name, stretches }) => ({
              name,
              points: stretches.flat().map(({ on, value }) => ({ at: onAxis(on).getTime(), value })),
            }))}
          />
          <details>
            <summary>The same as a table</summary>
            <TableFrame label={`${title}, in figures`}>{table}</TableFrame>
          </details>
        </>
      ) : null}
    </figure>
  )
}

/** What the marks mean, where there is more than one kind of them. */
function Legend({ series, aside }: { series: readonly ChartSeries[]; aside: boolean }) {
  if (series.length < 2 && !aside) return null
  return (
    <p className="chart-legend">
      {series.map(({ name, mark }, i) => (
        <span key={name} className={`chart-series chart-series-${i + 1}`}>
          <svg viewBox="0 0 12 12" aria-hidden="true">
            <Mark mark={mark} x={6} y={6} used />
          </svg>
          {name}
        </span>
      ))}
      {aside ? (
        <span className="chart-series">
          <svg viewBox="0 0 12 12" aria-hidden="true">
            <Mark mark={series[0]?.mark ?? 'disc'} x={6} y={6} used={false} />
          </svg>
          set aside, not used
        </span>
      ) : null}
    </p>
  )
}
