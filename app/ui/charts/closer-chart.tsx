'use client'

import { ResponsiveContainer, Scatter, ScatterChart, Tooltip, XAxis, YAxis } from 'recharts'
import type { CloserSeries } from './closer-series'

const COLOURS = ['var(--status-note)', 'var(--status-alarm)']
const SHAPES = ['circle', 'diamond'] as const

/** The chart with its values under the finger or the mouse. Loaded only when somebody asks for it. */
export default function CloserChart({
  series,
  unit,
  downwards,
  along,
}: {
  series: readonly CloserSeries[]
  unit: string
  downwards: boolean
  /** What is counted along the foot; null for time. */
  along: string | null
}) {
  const sayAt = along === null ? sayDay : sayUse
  return (
    <ResponsiveContainer width="100%" height={320}>
      <ScatterChart margin={{ top: 8, right: 12, bottom: 8, left: 0 }} accessibilityLayer>
        <XAxis
          type="number"
          dataKey="at"
          domain={['dataMin', 'dataMax']}
          tickFormatter={sayAt}
          stroke="var(--muted)"
        />
        <YAxis
          type="number"
          dataKey="value"
          reversed={downwards}
          unit={` ${unit}`}
          width={88}
          stroke="var(--muted)"
          domain={['auto', 'auto']}
        />
        <Tooltip
          formatter={(value, name) =>
            name === 'at' ? sayAt(Number(value)) : `${Number(value).toFixed(2)} ${unit}`
          }
        />
        {series.map(({ name, points }, i) => (
          <Scatter
            key={name}
            name={name}
            data={[...points]}
            fill={COLOURS[i % 2]}
            shape={SHAPES[i % 2]}
            isAnimationActive={false}
          />
        ))}
      </ScatterChart>
    </ResponsiveContainer>
  )
}

function sayDay(at: number): string {
  return new Date(at).toISOString().slice(0, 10)
}

function sayUse(at: number): string {
  return at.toLocaleString('en-US', { maximumFractionDigits: 1 })
}
