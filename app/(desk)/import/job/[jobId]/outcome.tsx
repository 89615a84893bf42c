import Link from 'next/link'
import { TableFrame } from '@/app/ui/table-frame'
import type { ImportOutcome } from '@/lib/exchange/jobs'
import { paths } from '@/lib/paths'

/** How an import ended, in words. */
export function Outcome({ outcome }: { outcome: ImportOutcome }) {
  switch (outcome.kind) {
    case 'done':
      return outcome.batchId === null ? (
        <p className="done" role="status">
          Nothing was stored: everything in the file is there already.
        </p>
      ) : (
        <Done counts={outcome.counts} batchId={outcome.batchId} />
      )
    case 'refused':
      return (
        <div role="alert">
          <p className="error">Nothing was stored:</p>
          <ul>
            {outcome.problems.slice(0, 100).map(({ row, message }) => (
              <li key={`${row} ${message}`}>
                Row {row}: {message}
              </li>
            ))}
          </ul>
        </div>
      )
    case 'not-ready':
      return (
        <p className="error" role="alert">
          Nothing was stored: the file has questions or problems. Go back and check it again.
        </p>
      )
    default:
      return (
        <p className="error" role="alert">
          {outcome.message}
        </p>
      )
  }
}

function Done({
  counts,
  batchId,
}: {
  counts: Extract<ImportOutcome, { kind: 'done' }>['counts']
  batchId: string
}) {
  const rows = [
    ['Wells', counts.wellsAdded, counts.wellsChanged, counts.wellsUnchanged],
    ['Duties', counts.dutiesAdded, counts.dutiesChanged, counts.dutiesUnchanged],
    ['Logbook lines', counts.entriesAdded, 0, counts.entriesUnchanged],
  ] as const
  return (
    <>
      <p className="done" role="status">
        The file is stored.
      </p>
      <TableFrame label="What was stored">
        <table className="table">
          <thead>
            <tr>
              <th scope="col">What</th>
              <th scope="col">Added</th>
              <th scope="col">Changed</th>
              <th scope="col">There already</th>
            </tr>
          </thead>
          <tbody>
            {rows.map(([what, added, changed, same]) => (
              <tr key={what}>
                <th scope="row">{what}</th>
                <td>{added.toLocaleString('en-US')}</td>
                <td>{changed.toLocaleString('en-US')}</td>
                <td>{same.toLocaleString('en-US')}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableFrame>
      <p>
        <Link href={paths.importUndo(batchId)} prefetch={false}>
          Take this import back
        </Link>
      </p>
    </>
  )
}
