import { scaleLinear, scaleUtc } from 'd3-scale'
import { line } from 'd3-shape'
import type { Day } from '@/lib/domain/quantity/day'
import { type ChartSpan, onAxis } from './shapes'

type SparkPoint = { on: Day; value: number }

type Props = {
  /** What the picture shows, for who cannot see it. */
  label: string
  /** In order of time, at least one. */
  points: readonly SparkPoint[]
  /** Time axis; give all pictures of a list the same, so that they compare. */
  span: ChartSpan
  /** Value axis; likewise. Values beyond it are drawn at its edge. */
  range: readonly [low: number, high: number]
  /** Levels: the first as a thin line, the second dashed. */
  levels?: readonly number[]
}

const WIDTH = 132
const HEIGHT = 48
const EDGE = 4

/** A very small picture of values over time for lists; its words stand beside it. The last value has a mark. */
export function Spark({ label, points, span, range, levels = [] }: Props) {
  const x = scaleUtc([onAxis(span.from), onAxis(span.to)], [EDGE, WIDTH - EDGE]).clamp(true)
  const y = scaleLinear(range, [HEIGHT - EDGE, EDGE]).clamp(true)
  const at = (point: SparkPoint) => [x(onAxis(point.on)), y(point.value)] as const
  const path = line<SparkPoint>(
    (p) => at(p)[0],
    (p) => at(p)[1],
  )
  const last = points.at(-1)
  return (
    <svg className="spark" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={label}>
      {levels.map((level, i) => (
        <line
          key={level}
          className={`spark-level-${i + 1}`}
          x1={EDGE}
          x2={WIDTH - EDGE}
          y1={y(level)}
          y2={y(level)}
        />
      ))}
      <path className="spark-line" d={path([...points]) ?? ''} />
      {points.map((point) => (
        <circle
          key={`${point.on} ${point.value}`}
          className="spark-dot"
          cx={at(point)[0]}
          cy={at(point)[1]}
          r={1.3}
        />
      ))}
      {last ? <circle className="spark-last" cx={at(last)[0]} cy={at(last)[1]} r={3} /> : null}
    </svg>
  )
}
