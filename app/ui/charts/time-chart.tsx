import type { Day } from '@/lib/domain/quantity/day'
import { ChartFigure, type ChartProps } from './chart-figure'

/** Values over time, with their sentence, their legend and their table. */
export function TimeChart(props: ChartProps<Day>) {
  return <ChartFigure {...props} along={null} />
}
