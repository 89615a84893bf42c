import { area } from 'd3-shape'
import { type Frame, GAP } from './frame'
import {
  type At,
  type ChartBand,
  type ChartEvent,
  type ChartForecast,
  type ChartLimit,
  letterOf,
} from './shapes'

const LETTER = 6.7
const LINE = 14

/** Intervals, below everything else. */
export function Bands({ bands, frame }: { bands: readonly ChartBand<At>[]; frame: Frame }) {
  const path = area<ChartBand<At>['points'][number]>()
    .x((p) => within(frame, frame.x(p.on)))
    .y0((p) => frame.y(p.low))
    .y1((p) => frame.y(p.high))
  return bands.map(({ name, points }, i) => (
    <path key={name} className={`chart-band chart-band-${i + 1}`} d={path([...points]) ?? ''} />
  ))
}

/** Levels across the picture, each with its short name on it where that fits; the legend has all of them. */
export function Limits({
  limits,
  frame,
  atEnd,
  marks,
}: {
  limits: readonly ChartLimit[]
  frame: Frame
  atEnd: boolean
  /** Where marks stand: a name keeps away from them where it can. */
  marks: readonly { x: number; y: number }[]
}) {
  const room = frame.right - frame.left - 2 * GAP
  const placed = limits
    .map((limit, i) => ({ ...limit, i, at: frame.y(limit.value) }))
    .sort((a, b) => a.at - b.at)
  return placed.map(({ name, short = name, i, at }, k) => {
    const above = placed[k - 1]
    const crowded = above !== undefined && at - above.at < LINE
    const y = crowded ? at + LINE - 2 : at - 4
    const width = short.length * LETTER + GAP
    const near = (from: number, to: number) =>
      marks.filter((mark) => mark.x >= from && mark.x <= to && Math.abs(mark.y - (y - 4)) < LINE).length
    const end = atEnd || near(frame.left, frame.left + width) > near(frame.right - width, frame.right)
    return (
      <g key={name}>
        <line
          className={`chart-limit chart-limit-${i + 1}`}
          x1={frame.left}
          x2={frame.right}
          y1={at}
          y2={at}
        />
        {short.length * LETTER < room ? (
          <text
            className="chart-label chart-halo"
            x={end ? frame.right - GAP : frame.left + GAP}
            y={y}
            textAnchor={end ? 'end' : 'start'}
          >
            {short}
          </text>
        ) : null}
      </g>
    )
  })
}

/** What happened, as a letter over a line; letters that would touch stand a little lower. */
export function Events({ events, frame }: { events: readonly ChartEvent<At>[]; frame: Frame }) {
  return events.map(({ on, name }, i) => {
    const at = frame.x(on)
    const before = events[i - 1]
    const touches = before !== undefined && Math.abs(at - frame.x(before.on)) < LINE && i % 2 === 1
    return (
      <g key={`${on} ${name}`}>
        <line className="chart-event" x1={at} x2={at} y1={frame.top} y2={frame.bottom} />
        <text
          className="chart-label chart-letter chart-halo"
          x={at}
          y={frame.top - 6 + (touches ? LINE : 0)}
          textAnchor="middle"
        >
          {letterOf(i)}
        </text>
      </g>
    )
  })
}

/** What lies after the last reading, tinted: below everything else. */
export function Ahead({ from, frame }: { from: At; frame: Frame }) {
  const x = within(frame, frame.x(from))
  return (
    <g className="chart-ahead">
      <rect x={x} y={frame.top} width={frame.right - x} height={frame.bottom - frame.top} />
      <line className="chart-today" x1={x} x2={x} y1={frame.top} y2={frame.bottom} />
    </g>
  )
}

/** One expected crossing: a bar from the early to the late end; an open end is an arrowhead at the edge. */
export function Crossing({
  crossing,
  frame,
}: {
  crossing: ChartForecast<At>['crossings'][number]
  frame: Frame
}) {
  const y = frame.y(crossing.value)
  const early = crossing.low === null ? frame.left : frame.x(crossing.low)
  const late = crossing.high === null ? frame.right + 1 : frame.x(crossing.high)
  const [x1, x2] = [within(frame, early), within(frame, late)]
  const middle = crossing.on === null ? null : frame.x(crossing.on)
  return (
    <g className="chart-crossing">
      <line x1={x1} x2={x2} y1={y} y2={y} />
      {early >= frame.left ? <line x1={x1} x2={x1} y1={y - 5} y2={y + 5} /> : null}
      {late <= frame.right ? (
        <line x1={x2} x2={x2} y1={y - 5} y2={y + 5} />
      ) : (
        <path d={`M${x2 - 6} ${y - 5}l6 5l-6 5`} />
      )}
      {middle !== null && middle >= frame.left && middle <= frame.right ? (
        <path className="chart-crossing-middle" d={`M${middle} ${y - 6}l6 6l-6 6l-6-6z`} />
      ) : null}
    </g>
  )
}

function within(frame: Frame, x: number): number {
  return Math.min(frame.right, Math.max(frame.left, x))
}
