import { ChartFigure, type ChartProps } from './chart-figure'

/** Values over a use counted from nothing, as volume since a change; `along` says what it is, with its unit. */
export function UseChart(props: ChartProps<number> & { along: string }) {
  return <ChartFigure {...props} />
}
