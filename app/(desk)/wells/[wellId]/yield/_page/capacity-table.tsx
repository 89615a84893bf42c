import { showDay } from '@/app/ui/show-day'
import { formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import type { CapacityPoint } from '@/lib/domain/yield/decline/types'

/** Every measured capacity, newest first, as read and as adjusted. */
export function CapacityTable({ points, units }: { points: readonly CapacityPoint[]; units: UnitSystem }) {
  const show = (m2PerS: number | null) =>
    m2PerS === null ? 'not known' : formatQuantity(m2PerS, 'capacity', units)
  return (
    <table className="table">
      <thead>
        <tr>
          <th scope="col">Day</th>
          <th scope="col">As read</th>
          <th scope="col">Season and pumping time taken out</th>
          <th scope="col">Level at rest</th>
          <th scope="col">Remark</th>
        </tr>
      </thead>
      <tbody>
        {[...points].reverse().map((point) => (
          <tr key={`${point.on} ${point.capacityM2PerS} ${point.staticM}`}>
            <td>{showDay(point.on, units)}</td>
            <td>{show(point.capacityM2PerS)}</td>
            <td>{show(point.adjustedM2PerS)}</td>
            <td>{point.staticM === null ? 'not read' : formatQuantity(point.staticM, 'depth', units)}</td>
            <td>{point.setAside}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
