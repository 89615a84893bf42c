import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { SubmitButton } from '@/app/ui/submit-button'
import { mayFleet } from '@/lib/access/rules'
import { paths } from '@/lib/paths'
import { batchById } from '@/lib/records/batch-undo'
import { getDb } from '@/lib/records/open'
import { takeBack } from '../../actions'

export const metadata: Metadata = { title: 'Take an import back' }

export default async function UndoPage({ params }: { params: Promise<{ batchId: string }> }) {
  const { batchId } = await params
  const viewer = await deskViewer()
  if (!mayFleet(viewer, 'import.run')) notFound()
  const batch = batchById(await getDb(), viewer, batchId)
  if (!batch) notFound()
  return (
    <>
      <PageHead title="Take an import back" lead={batch.fileName}>
        <Link className="button button-quiet" href={paths.imports()}>
          All imports
        </Link>
      </PageHead>
      {batch.undoneAt ? (
        <p className="done" role="status">
          This import was taken back on {showDay(batch.undoneAt.slice(0, 10), viewer.units)} by{' '}
          {batch.undoneBy}.
        </p>
      ) : (
        <>
          <p className="text">
            Its {batch.counts.entriesAdded.toLocaleString('en-US')} logbook lines will be withdrawn, its{' '}
            {batch.counts.wellsAdded.toLocaleString('en-US')} wells leave the register unless somebody has
            written about them since, and what it changed is set back unless somebody has changed it again.
            Nothing is deleted{batch.what === 'set-up' ? '.' : '. The file can be imported again.'}
          </p>
          {batch.what === 'set-up' ? null : (
            <p className="text">
              The shelf and the models of pumps and cartridges stay, those that came with the demo too: count
              a part that is not there to nothing on the page Stock, and retire a model that nobody fits.
            </p>
          )}
          <form action={takeBack.bind(null, batchId)}>
            <SubmitButton busy="Taking it back…">Take the import back</SubmitButton>
          </form>
        </>
      )}
    </>
  )
}
