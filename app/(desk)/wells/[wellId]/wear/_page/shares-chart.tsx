import { TimeChart } from '@/app/ui/charts/time-chart'
import { showDay } from '@/app/ui/show-day'
import type { PumpStanding } from '@/lib/domain/logbook/pump-standing'
import type { FlowPoint } from '@/lib/domain/pump'
import { formatQuantity, type UnitSystem } from '@/lib/domain/quantity'

/** What the pump gives at one head and voltage, as a share of new, over the years. Nothing where its kind is not known. */
export function SharesChart({ pump, units }: { pump: PumpStanding; units: UnitSystem }) {
  const { type, reference } = pump
  const points = type === null ? [] : pump.shares[type]
  if (!reference || points.length === 0) return null
  const all: FlowPoint[] = [{ on: reference.on, share: 1 }, ...points]
  const last = points.at(-1)
  return (
    <TimeChart
      title="Flow at one head and voltage"
      says={`${points.length} full ${points.length === 1 ? 'reading' : 'readings'} since ${showDay(reference.on, units)}, each as a share of what the pump gave then; last ${percent(last?.share ?? 1, units)}.`}
      unit="% of new"
      series={[
        {
          name: 'share of the flow when new',
          mark: 'disc',
          stretches: [
            all.map(({ on, share }) => ({ id: `${on} ${share}`, on, value: 100 * share, used: true })),
          ],
        },
      ]}
      limits={[{ name: 'as when new', short: 'new', value: 100 }]}
      table={
        <table className="table">
          <thead>
            <tr>
              <th scope="col">Day</th>
              <th scope="col">Share of the flow when new</th>
            </tr>
          </thead>
          <tbody>
            {[...all].reverse().map(({ on, share }) => (
              <tr key={`${on} ${share}`}>
                <td>{showDay(on, units)}</td>
                <td>{percent(share, units)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      }
    />
  )
}

const percent = (share: number, units: UnitSystem): string =>
  formatQuantity(Math.round(share * 100) / 100, 'share', units)
