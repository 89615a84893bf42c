import { showDay } from '@/app/ui/show-day'
import type { SeriesPoint } from '@/lib/domain/logbook/series'
import { formatQuantity, type UnitSystem, type Use } from '@/lib/domain/quantity'

type Props = { head: string; points: readonly SeriesPoint[]; use: Use; units: UnitSystem }

/** Readings by day, newest first. */
export function ReadingsTable({ head, points, use, units }: Props) {
  return (
    <table className="table">
      <thead>
        <tr>
          <th scope="col">Day</th>
          <th scope="col">{head}</th>
        </tr>
      </thead>
      <tbody>
        {[...points].reverse().map(({ id, on, value }) => (
          <tr key={`${id} ${value}`}>
            <td>{showDay(on, units)}</td>
            <td>{formatQuantity(value, use, units)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
