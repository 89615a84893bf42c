import { Mark } from './mark'
import { type At, type ChartExtras, type ChartSeries, letterOf } from './shapes'

type Props = { series: readonly ChartSeries<At>[] } & ChartExtras<At>

/** What marks, lines and tints mean, where there is more than one plain kind of mark. */
export function Legend({ series, bands = [], limits = [], events = [], forecast }: Props) {
  const points = series.flatMap(({ stretches }) => stretches.flat())
  const aside = points.some((point) => !point.used && !point.bound)
  const below = points.some((point) => point.bound === 'below')
  const above = points.some((point) => point.bound === 'above')
  const more = bands.length + limits.length + events.length + (forecast ? 1 : 0)
  if (series.length < 2 && !aside && !below && !above && more === 0) return null
  const shape = series[0]?.mark ?? 'disc'
  return (
    <ul className="chart-legend">
      {series.map(({ name, mark }, i) => (
        <li key={name} className={`chart-series chart-series-${i + 1}`}>
          <svg viewBox="0 0 12 12" aria-hidden="true">
            <Mark mark={mark} x={6} y={6} used />
          </svg>
          {name}
        </li>
      ))}
      {aside ? (
        <BoundKey words="set aside, not used" mark={<Mark mark={shape} x={6} y={6} used={false} />} />
      ) : null}
      {below ? (
        <BoundKey words="less than this" mark={<Mark mark={shape} x={6} y={2} used bound="below" />} />
      ) : null}
      {above ? (
        <BoundKey words="more than this" mark={<Mark mark={shape} x={6} y={10} used bound="above" />} />
      ) : null}
      {bands.map(({ name }, i) => (
        <LongKey
          key={name}
          words={name}
          drawn={<rect className={`chart-band chart-band-${i + 1}`} x={0} y={2} width={24} height={8} />}
        />
      ))}
      {limits.map(({ name }, i) => (
        <LongKey
          key={name}
          words={name}
          drawn={<line className={`chart-limit chart-limit-${i + 1}`} x1={0} x2={24} y1={6} y2={6} />}
        />
      ))}
      {forecast ? <ForecastKeys forecast={forecast} /> : null}
      {events.map(({ on, name }, i) => (
        <li key={`${on} ${name}`}>
          <strong className="chart-letter">{letterOf(i)}</strong> {name}
        </li>
      ))}
    </ul>
  )
}

function BoundKey({ words, mark }: { words: string; mark: React.ReactNode }) {
  return (
    <li className="chart-series">
      <svg viewBox="0 0 12 12" aria-hidden="true">
        {mark}
      </svg>
      {words}
    </li>
  )
}

function LongKey({ words, drawn }: { words: string; drawn: React.ReactNode }) {
  return (
    <li>
      <svg className="chart-key-long" viewBox="0 0 24 12" aria-hidden="true">
        {drawn}
      </svg>
      {words}
    </li>
  )
}

function ForecastKeys({ forecast }: { forecast: NonNullable<ChartExtras<At>['forecast']> }) {
  return (
    <>
      <LongKey
        words="after the last reading"
        drawn={
          <g className="chart-ahead">
            <rect x={0} y={1} width={24} height={10} />
          </g>
        }
      />
      {forecast.crossings.map(({ name }) => (
        <LongKey
          key={name}
          words={name}
          drawn={
            <g className="chart-crossing">
              <path d="M1 6h22M1 2v8M23 2v8" />
              <path className="chart-crossing-middle" d="M12 1l5 5l-5 5l-5-5z" />
            </g>
          }
        />
      ))}
    </>
  )
}
