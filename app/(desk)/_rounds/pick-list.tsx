import Link from 'next/link'
import { Fragment } from 'react'
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
          <table className="table table-cards">
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
                  <td data-label="How many">
                    {line.count}
                    {line.use === 'in case' ? ' in case it is worn' : ''}
                  </td>
                  <td data-label="On the shelf">{shelfWords(line)}</td>
                  <td data-label="For">
                    {line.wells.map((well, i) => (
                      <Fragment key={well.id}>
                        {i > 0 ? ' ' : ''}
                        <span className="number">
                          <Link href={paths.well(well.id)} prefetch={false}>
                            {well.label}
                          </Link>
                          {i < line.wells.length - 1 ? ',' : ''}
                        </span>
                      </Fragment>
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
