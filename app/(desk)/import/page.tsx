import type { Metadata } from 'next'
import Link from 'next/link'
import { PageHead } from '@/app/ui/page-head'
import { demand, deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { paths } from '@/lib/paths'
import { batchList } from '@/lib/records/batch-undo'
import type { BatchCounts } from '@/lib/records/batch-wells'
import { getDb } from '@/lib/records/open'
import { UploadForm } from './upload-form'

export const metadata: Metadata = { title: 'Import' }

/** Where a file comes in, and where each that came in can be taken back. */
export default async function ImportPage() {
  const viewer = await deskViewer()
  await demand(viewer, 'import.run')
  const batches = batchList(await getDb(), viewer, 50)
  return (
    <>
      <PageHead
        title="Import"
        lead="Bring the spreadsheet that you have today. Nothing is stored before you have seen what it would do."
      >
        <Link className="button button-quiet" href={paths.exports()} prefetch={false}>
          Export
        </Link>
      </PageHead>
      <UploadForm />
      <section aria-labelledby="imports" className="stack">
        <h2 id="imports">Imports so far</h2>
        {batches.length === 0 ? <p className="muted">None yet.</p> : null}
        <ul className="plain-list stack">
          {batches.map((batch) => (
            <li key={batch.id} className="sheet stack-tight">
              <strong>{batch.fileName}</strong>
              <span>
                {showDay(batch.at.slice(0, 10), viewer.units)} by {batch.byName}: {sayCounts(batch.counts)}
              </span>
              {batch.undoneAt ? (
                <span className="muted">
                  Taken back on {showDay(batch.undoneAt.slice(0, 10), viewer.units)} by {batch.undoneBy}.
                </span>
              ) : (
                <Link href={paths.importUndo(batch.id)} prefetch={false}>
                  Take this import back<span className="unseen">: {batch.fileName}</span>
                </Link>
              )}
            </li>
          ))}
        </ul>
      </section>
    </>
  )
}

function sayCounts(counts: BatchCounts): string {
  const parts = [
    [counts.wellsAdded, 'wells added'],
    [counts.wellsChanged, 'wells changed'],
    [counts.dutiesAdded, 'duties added'],
    [counts.dutiesChanged, 'duties changed'],
    [counts.entriesAdded, 'logbook lines added'],
  ] as const
  return parts.flatMap(([n, what]) => (n > 0 ? [`${n.toLocaleString('en-US')} ${what}`] : [])).join(', ')
}
