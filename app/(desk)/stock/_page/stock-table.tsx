import Link from 'next/link'
import { TableFrame } from '@/app/ui/table-frame'
import { paths } from '@/lib/paths'
import type { StockLine } from '@/lib/records/stock-overview'
import { ShelfMark, sayShelf } from './words'

/** Every kind of part: what is there, what is due to use it, and whether that is enough. */
export function StockTable({ lines, days }: { lines: readonly StockLine[]; days: number }) {
  return (
    <TableFrame label="Parts on the shelf">
      <table className="table table-cards">
        <thead>
          <tr>
            <th scope="col">Part</th>
            <th scope="col">How it stands</th>
            <th scope="col">On the shelf</th>
            <th scope="col">Due to use within {days} days</th>
            <th scope="col">Reorder at, up to</th>
          </tr>
        </thead>
        <tbody>
          {lines.map((line) => (
            <StockRow key={`${line.part} ${line.model}`} line={line} days={days} />
          ))}
        </tbody>
      </table>
    </TableFrame>
  )
}

function StockRow({ line, days }: { line: StockLine; days: number }) {
  const { part, model, item, needed, inCase, wells, standing } = line
  const address = item
    ? paths.stockItem(item.id)
    : paths.newStock({ part, model: model ?? '', kind: 'counted' })
  return (
    <tr>
      <th scope="row" className="pair">
        <Link href={address} prefetch={false}>
          {part}
          {item ? '' : ': count it'}
        </Link>
        <span className="muted">{model ?? 'size not recorded'}</span>
      </th>
      <td data-label="How it stands" className="pair">
        <ShelfMark standing={standing} />
        <span className="muted">{standing.why}</span>
      </td>
      <td data-label="On the shelf">{sayShelf(item?.shelf ?? null)}</td>
      <td data-label={`Due to use within ${days} days`}>
        {needed}
        {inCase > 0 ? <span className="muted"> and {inCase} along in case</span> : null}
        {wells.length > 0 ? (
          <details className="no-print">
            <summary>
              {wells.length === 1 ? 'at one well' : `at ${wells.length} wells`}
              <span className="unseen">
                {' '}
                for {part}, {model ?? 'size not recorded'}
              </span>
            </summary>
            <ul className="plain-list">
              {wells.map(({ id, label }) => (
                <li key={id}>
                  <Link href={paths.well(id)} prefetch={false}>
                    {label}
                  </Link>
                </li>
              ))}
            </ul>
          </details>
        ) : null}
      </td>
      <td data-label="Reorder at, up to">
        {item?.reorderAt == null || item.upTo == null
          ? 'not set'
          : `at ${item.reorderAt}, up to ${item.upTo}`}
      </td>
    </tr>
  )
}
