import Link from 'next/link'
import { TableFrame } from '@/app/ui/table-frame'
import { truckList } from '@/lib/domain/upkeep/truck'
import { paths } from '@/lib/paths'
import type { PickLine, StopWork } from '@/lib/records/stock'

/** What to load for the stops that are still open: parts from the shelf, then bottles and tools. */
export function PickList({ work, lines }: { work: readonly StopWork[]; lines: readonly PickLine[] }) {
  const tools = truckList(work.flatMap((stop) => stop.dutyKeys))
  return (
    <section className="sheet stack-tight" aria-labelledby="pick-list">
      <h2 id="pick-list">On the truck</h2>
      {lines.length === 0 ? (
        <p className="muted">The duties of these stops take no part from the shelf.</p>
      ) : (
        <TableFrame label="Parts to load">
          <table className="table">
            <thead>
              <tr>
                <th scope="col">Part</th>
                <th scope="col">How many</th>
                <th scope="col">On the shelf</th>
                <th scope="col">For</th>
              </tr>
            </thead>
            <tbody>
              {lines.map((line) => (
                <tr key={`${line.part}-${line.model}-${line.use}`}>
                  <th scope="row">
                    <span className="tick" aria-hidden="true" /> {line.part}
                    {line.model ? `, ${line.model}` : ''}
                    {line.model === null ? <span className="muted"> (model not on record)</span> : null}
                  </th>
                  <td>
                    {line.count}
                    {line.use === 'in case' ? ' in case it is worn' : ''}
                  </td>
                  <td>{shelfWords(line)}</td>
                  <td>
                    {line.wells.map((well, i) => (
                      <span key={well.id}>
                        {i > 0 ? ', ' : ''}
                        <Link href={paths.well(well.id)} prefetch={false}>
                          {well.label}
                        </Link>
                      </span>
                    ))}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </TableFrame>
      )}
      {tools.length > 0 ? (
        <ul className="truck">
          {tools.map(({ part, duties }) => (
            <li key={part}>
              <span className="tick" aria-hidden="true" /> {part}
              {duties > 1 ? <span className="muted"> (for {duties})</span> : null}
            </li>
          ))}
        </ul>
      ) : null}
    </section>
  )
}

/** Not counted is not none. */
function shelfWords({ onShelf, short }: PickLine): string {
  if (onShelf === null) return 'never counted'
  return short ? `${onShelf}: ${short} short` : String(onShelf)
}
