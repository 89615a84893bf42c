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

type Props = { lines: readonly StockBookLine[]; units: UnitSystem }

/** Every line of one item, the newest first; what lies before the last count no longer counts and is folded away. */
export function Book({ lines, units }: Props) {
  const past = lines.filter(({ counts }) => !counts)
  return (
    <>
      <BookTable label="The book of this part" lines={lines.filter(({ counts }) => counts)} units={units} />
      {past.length > 0 ? (
        <details>
          <summary>
            {past.length} {past.length === 1 ? 'line' : 'lines'} from before the last count: they count no
            more
          </summary>
          <BookTable label="Lines from before the last count" lines={past} units={units} />
        </details>
      ) : null}
    </>
  )
}

function BookTable({ label, lines, units }: Props & { label: string }) {
  return (
    <TableFrame label={label}>
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
          {lines.map(({ id, on, kind, count, reason, byName, well }) => (
            <tr key={id}>
              <th scope="row">{showDay(on, units)}</th>
              <td data-label="What">{WORDS[kind](count)}</td>
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
