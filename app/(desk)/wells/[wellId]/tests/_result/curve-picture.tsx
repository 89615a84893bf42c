import { scaleLinear } from 'd3-scale'
import { line } from 'd3-shape'
import { displayUnit, fromSi, type UnitSystem, unitSymbol } from '@/lib/domain/quantity'
import type { CurvePoint, TestCurve } from './curve'

/** Drawn twice, once for each width of screen, so that the letters keep their size. */
const SIZES = {
  wide: { width: 640, height: 280, ticks: 6 },
  narrow: { width: 340, height: 250, ticks: 4 },
} as const
const TOP = 14
const RIGHT = 16
const FOOT = 40
const LETTER = 7.4
const GAP = 8

type Props = { curve: TestCurve; units: UnitSystem; says: string }

/** Level against time, depths downwards: readings, the fitted curve, the level at rest; the same in words beside it. */
export function CurvePicture({ curve, units, says }: Props) {
  if (curve.readings.length < 2) return null
  const label = `Water level against time. ${says}`
  return (
    <figure className="chart">
      <figcaption>
        <strong>Water level against time</strong>{' '}
        <span className="muted">({unitSymbol(displayUnit('depth', units))} below the measuring point)</span>
      </figcaption>
      <Drawing size="wide" {...{ curve, units, label }} />
      <Drawing size="narrow" {...{ curve, units, label }} />
      <Legend curve={curve} />
    </figure>
  )
}

function Drawing({
  size,
  curve,
  units,
  label,
}: {
  size: keyof typeof SIZES
  curve: TestCurve
  units: UnitSystem
  label: string
}) {
  const { width, height, ticks } = SIZES[size]
  const unit = displayUnit('depth', units)
  const level = (p: CurvePoint) => fromSi(p.levelM, unit)
  const lastS = Math.max(...curve.readings.map((r) => r.elapsedS))
  const inHours = lastS > 3 * 3600
  const time = (p: CurvePoint) => p.elapsedS / (inHours ? 3600 : 60)
  const restAt = curve.staticM === null ? null : fromSi(curve.staticM, unit)
  const values = [...curve.readings, ...curve.fitted].map(level).concat(restAt ?? [])
  const y = scaleLinear([Math.min(...values), Math.max(...values)], [TOP, height - FOOT]).nice(5)
  const labels = y.ticks(5).map((tick) => ({ tick, text: tick.toLocaleString('en-US') }))
  const left = Math.max(...labels.map(({ text }) => text.length)) * LETTER + GAP * 2
  const x = scaleLinear([0, time({ elapsedS: lastS, levelM: 0 })], [left, width - RIGHT])
  const path = line<CurvePoint>(
    (p) => x(time(p)),
    (p) => y(level(p)),
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
        <text key={tick} className="chart-label" x={x(tick)} y={height - 22} textAnchor="middle">
          {tick.toLocaleString('en-US')}
        </text>
      ))}
      <text className="chart-label" x={(left + width - RIGHT) / 2} y={height - 4} textAnchor="middle">
        {inHours ? 'hours' : 'minutes'}
      </text>
      {restAt === null ? null : (
        <line className="curve-rest" x1={left} x2={width - RIGHT} y1={y(restAt)} y2={y(restAt)} />
      )}
      <g className="chart-series chart-series-1">
        {curve.fitted.length > 0 ? <path className="chart-line" d={path(curve.fitted) ?? ''} /> : null}
        {curve.readings.map((reading) => (
          <circle
            key={reading.elapsedS}
            className={reading.used ? 'chart-mark' : 'chart-mark chart-mark-open'}
            cx={x(time(reading))}
            cy={y(level(reading))}
            r={3.5}
          />
        ))}
      </g>
    </svg>
  )
}

function Legend({ curve }: { curve: TestCurve }) {
  const aside = curve.readings.some((r) => !r.used)
  return (
    <ul className="chart-legend small">
      <li className="chart-series-1">
        <svg viewBox="0 0 12 12" aria-hidden="true">
          <circle className="chart-mark" cx={6} cy={6} r={3.5} />
        </svg>
        reading
      </li>
      {aside ? (
        <li className="chart-series-1">
          <svg viewBox="0 0 12 12" aria-hidden="true">
            <circle className="chart-mark chart-mark-open" cx={6} cy={6} r={3.5} />
          </svg>
          set aside, not used
        </li>
      ) : null}
      {curve.fitted.length > 0 ? (
        <li className="chart-series-1">
          <svg viewBox="0 0 12 12" aria-hidden="true">
            <path className="chart-line" d="M0 6h12" />
          </svg>
          fitted curve
        </li>
      ) : null}
      {curve.staticM === null ? null : (
        <li>
          <svg viewBox="0 0 12 12" aria-hidden="true">
            <line className="curve-rest" x1={0} x2={12} y1={6} y2={6} />
          </svg>
          level at rest
        </li>
      )}
    </ul>
  )
}
