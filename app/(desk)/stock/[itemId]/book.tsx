import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import { TableFrame } from '@/app/ui/table-frame'
import type { UnitSystem } from '@/lib/domain/quantity'
import { paths } from '@/lib/paths'
import type { StockBookLine } from '@/lib/records/stock-items'

const WORDS: Record<StockBookLine['kind'], (count: number) => string> = {
  counted: (count) => `counted ${count}`,
  received: (count) => `received ${count}`,
  taken: (count) => `taken ${count}`,
  fitted: (count) => `fitted ${count}`,
}

/** Every line of one item, the newest first; what lies before the last count no longer counts and says so. */
export function Book({ lines, units }: { lines: readonly StockBookLine[]; units: UnitSystem }) {
  return (
    <TableFrame label="The book of this part">
      <table className="table table-cards">
        <thead>
          <tr>
            <th scope="col">Day</th>
            <th scope="col">What</th>
            <th scope="col">Where or why</th>
            <th scope="col">By</th>
          </tr>
        </thead>
        <tbody>
          {lines.map(({ id, on, kind, count, reason, byName, well, counts }) => (
            <tr key={id}>
              <th scope="row">{showDay(on, units)}</th>
              <td data-label="What">
                {WORDS[kind](count)}
                {counts ? '' : <span className="muted"> (before the last count)</span>}
              </td>
              <td data-label="Where or why">
                {well ? (
                  <Link href={paths.well(well.id)} prefetch={false}>
                    {well.label}
                  </Link>
                ) : (
                  (reason ?? <span className="muted">nothing noted</span>)
                )}
              </td>
              <td data-label="By">{byName ?? 'not noted'}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </TableFrame>
  )
}
