import type { ChartPoint, MarkShape } from './shapes'

const SHAPES: Record<Exclude<MarkShape, 'disc'>, string> = {
  diamond: 'm0 -5l5 5l-5 5l-5-5z',
  square: 'm-3.5 -3.5h7v7h-7z',
  triangle: 'm0 -4.5l4.5 8h-9z',
}

type Props = {
  mark: MarkShape
  x: number
  y: number
  used: boolean
  bound?: ChartPoint['bound']
  /** Whether greater values stand lower, as depths do. */
  downwards?: boolean
}

/** One value: its series' shape, open where it was set aside, an open arrowhead where only a bound is known. */
export function Mark({ mark, x, y, used, bound, downwards = false }: Props) {
  if (bound) {
    const tip = (bound === 'below') === downwards ? -8 : 8
    return <path className="chart-mark chart-mark-bound" d={`M${x - 5} ${y}h10l-5 ${tip}z`} />
  }
  const className = used ? 'chart-mark' : 'chart-mark chart-mark-open'
  if (mark === 'disc') return <circle className={className} cx={x} cy={y} r={3.5} />
  return <path className={className} d={`M${x} ${y}${SHAPES[mark]}`} />
}
