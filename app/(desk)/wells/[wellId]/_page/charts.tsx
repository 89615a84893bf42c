import type { ChartPoint } from '@/app/ui/charts/shapes'
import { TimeChart } from '@/app/ui/charts/time-chart'
import { showDay } from '@/app/ui/show-day'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import { levelSeries, meterSeries, type SeriesPoint, sayLevels, sayMeter } from '@/lib/domain/logbook/series'
import {
  displayUnit,
  formatQuantity,
  fromSi,
  type UnitSystem,
  type Use,
  unitSymbol,
} from '@/lib/domain/quantity'
import type { WellPage } from '@/lib/records/wells'

type Props = { facts: readonly CurrentFact[]; standing: WellPage['standing']; units: UnitSystem }

/** Water levels and meters over time, each with its sentence and its table. */
export function Charts({ facts, standing, units }: Props) {
  const levels = levelSeries(facts)
  const shown = (points: readonly SeriesPoint[], use: Use): ChartPoint[] =>
    points.map((point) => ({ ...point, value: fromSi(point.value, displayUnit(use, units)) }))
  return (
    <section aria-labelledby="charts" className="stack">
      <h2 id="charts">Levels and meters</h2>
      <TimeChart
        title="Depth to water"
        says={sayLevels(levels, units)}
        unit={unitSymbol(displayUnit('depth', units))}
        downwards
        series={[
          { name: 'at rest', mark: 'disc', stretches: [shown(levels.rest, 'depth')] },
          {
            name: 'while pumping',
            mark: 'diamond',
            stretches: levels.pumping.map((point) => shown([point], 'depth')),
          },
        ]}
        table={
          <SeriesTable
            head="Depth to water"
            rows={[
              ...levels.rest.map((p) => ({ ...p, what: 'at rest' })),
              ...levels.pumping.map((p) => ({ ...p, what: 'while pumping' })),
            ]}
            use="depth"
            units={units}
          />
        }
      />
      {(['hours', 'volume'] as const).map((meter) => {
        const aside = new Set(standing?.meters[meter].setAside.map((row) => row.id))
        const stretches = meterSeries(facts, meter, aside)
        if (stretches.length === 0) return null
        const use = meter === 'hours' ? 'hours' : 'tank'
        const title = meter === 'hours' ? 'Hour meter' : 'Volume meter'
        return (
          <TimeChart
            key={meter}
            title={title}
            says={sayMeter(stretches, meter, units)}
            unit={unitSymbol(displayUnit(use, units))}
            series={[
              { name: title, mark: 'disc', stretches: stretches.map((stretch) => shown(stretch, use)) },
            ]}
            table={
              <SeriesTable
                head={title}
                rows={stretches.flat().map((p) => ({ ...p, what: p.used ? 'used' : 'set aside' }))}
                use={use}
                units={units}
              />
            }
          />
        )
      })}
    </section>
  )
}

type Row = SeriesPoint & { what: string }

function SeriesTable({
  head,
  rows,
  use,
  units,
}: {
  head: string
  rows: readonly Row[]
  use: Use
  units: UnitSystem
}) {
  return (
    <table className="table">
      <thead>
        <tr>
          <th scope="col">Day</th>
          <th scope="col">{head}</th>
          <th scope="col">How</th>
        </tr>
      </thead>
      <tbody>
        {[...rows]
          .sort((a, b) => (a.on < b.on ? 1 : -1))
          .map(({ id, on, value, what }) => (
            <tr key={`${id} ${what} ${value}`}>
              <td>{showDay(on, units)}</td>
              <td>{formatQuantity(value, use, units)}</td>
              <td>{what}</td>
            </tr>
          ))}
      </tbody>
    </table>
  )
}
