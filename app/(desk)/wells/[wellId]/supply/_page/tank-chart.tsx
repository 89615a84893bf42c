import { TimeChart } from '@/app/ui/charts/time-chart'
import { showDay } from '@/app/ui/show-day'
import { type SupplyYear, type TankWeek, tankWeeks } from '@/lib/domain/pump/supply'
import { displayUnit, formatQuantity, fromSi, type UnitSystem, unitSymbol } from '@/lib/domain/quantity'

type Props = { year: SupplyYear; tankM3: number; units: UnitSystem }

/** The tank through the year by weeks: how low and how full it gets, and the weeks in which it gives out. */
export function TankChart({ year, tankM3, units }: Props) {
  const unit = displayUnit('tank', units)
  const to = (m3: number) => fromSi(m3, unit)
  const weeks = tankWeeks(year)
  const short = weeks.filter(({ shortDays }) => shortDays > 0)
  const [lowest] = [...weeks].sort((a, b) => a.lowM3 - b.lowM3)
  const full = formatQuantity(tankM3, 'tank', units)
  return (
    <TimeChart
      title="Water in the tank"
      says={sayWeeks(weeks, short.length, lowest, units)}
      unit={unitSymbol(unit)}
      fromZero
      series={[
        {
          name: 'middle of the week',
          mark: 'disc',
          stretches: [
            weeks.map(({ from, medianM3 }) => ({ id: from, on: from, value: to(medianM3), used: true })),
          ],
        },
        ...(short.length > 0
          ? [
              {
                name: 'week with a short day',
                mark: 'triangle' as const,
                stretches: short.map(({ from }) => [{ id: `short ${from}`, on: from, value: 0, used: true }]),
              },
            ]
          : []),
      ]}
      bands={[
        {
          name: 'lowest to highest of each week',
          points: weeks.map(({ from, lowM3, highM3 }) => ({ on: from, low: to(lowM3), high: to(highM3) })),
        },
      ]}
      limits={[{ name: `full tank, ${full}`, short: 'full', value: to(tankM3) }]}
      table={<WeekTable weeks={weeks} units={units} />}
    />
  )
}

function sayWeeks(
  weeks: readonly TankWeek[],
  short: number,
  lowest: TankWeek | undefined,
  units: UnitSystem,
): string {
  if (!lowest) return 'No week was simulated.'
  const low = `It stands lowest in the week from ${showDay(lowest.from, units)}, at ${formatQuantity(lowest.lowM3, 'tank', units)}.`
  if (weeks.every(({ lowM3, highM3 }) => highM3 - lowM3 < 0.01 * highM3)) {
    return 'The tank stands full all the year: the pump makes good within the hour what is drawn.'
  }
  return short === 0
    ? `In none of ${weeks.length} weeks does the tank give out. ${low}`
    : `In ${short} of ${weeks.length} weeks the tank gives out on some day. ${low}`
}

function WeekTable({ weeks, units }: { weeks: readonly TankWeek[]; units: UnitSystem }) {
  const show = (m3: number) => formatQuantity(m3, 'tank', units)
  return (
    <table className="table">
      <thead>
        <tr>
          <th scope="col">Week from</th>
          <th scope="col">Lowest</th>
          <th scope="col">Middle</th>
          <th scope="col">Highest</th>
          <th scope="col">Short days</th>
        </tr>
      </thead>
      <tbody>
        {weeks.map(({ from, lowM3, medianM3, highM3, shortDays }) => (
          <tr key={from}>
            <th scope="row">{showDay(from, units)}</th>
            <td>{show(lowM3)}</td>
            <td>{show(medianM3)}</td>
            <td>{show(highM3)}</td>
            <td>{shortDays}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
