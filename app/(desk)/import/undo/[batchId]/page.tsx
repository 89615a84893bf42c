import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { demand, deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { SubmitButton } from '@/app/ui/submit-button'
import { paths } from '@/lib/paths'
import { batchById, type Undone, undoneOf } from '@/lib/records/batch-undo'
import { type Brought, broughtBy } from '@/lib/records/brought'
import { getDb } from '@/lib/records/open'
import { takeBack } from '../../actions'

export const metadata: Metadata = { title: 'Take an import back' }

export default async function UndoPage({ params }: { params: Promise<{ batchId: string }> }) {
  const { batchId } = await params
  const viewer = await deskViewer()
  await demand(viewer, 'import.run')
  const db = await getDb()
  const batch = batchById(db, viewer, batchId)
  if (!batch) notFound()
  const brought = batch.undoneAt ? [] : broughtBy(db, viewer, batch)
  return (
    <>
      <PageHead title="Take an import back" lead={batch.fileName}>
        <Link className="button button-quiet" href={paths.imports()} prefetch={false}>
          All imports
        </Link>
      </PageHead>
      {batch.undoneAt ? (
        <>
          <p className="done" role="status">
            This import was taken back on {showDay(batch.undoneAt.slice(0, 10), viewer.units)} by{' '}
            {batch.undoneBy}.
          </p>
          <Stayed undone={undoneOf(db, viewer, batchId)} />
        </>
      ) : (
        <>
          <p className="text">
            Its {batch.counts.entriesAdded.toLocaleString('en-US')} logbook lines will be withdrawn, its{' '}
            {batch.counts.wellsAdded.toLocaleString('en-US')} wells leave the register unless somebody has
            written about them since, and what it changed is set back unless somebody has changed it again. No
            line of a logbook is deleted
            {batch.what === 'set-up' || brought.length > 0 ? '.' : '. The file can be imported again.'}
          </p>
          <BroughtAlong brought={brought} />
          <form action={takeBack.bind(null, batchId)}>
            <SubmitButton busy="Taking it back…">Take the import back</SubmitButton>
          </form>
        </>
      )}
    </>
  )
}

/** The models and the shelf that came with the import: what leaves, and what stays because something else uses it. */
function BroughtAlong({ brought }: { brought: readonly Brought[] }) {
  if (brought.length === 0) {
    return (
      <p className="text">
        The shelf and the models of pumps and cartridges are not part of it: they stay as they are.
      </p>
    )
  }
  const kept = brought.filter(({ keptFor }) => keptFor !== null)
  const leaving = brought.filter(({ keptFor }) => keptFor === null)
  return (
    <>
      {leaving.length > 0 ? (
        <div className="text">
          <p>With it came models and a shelf. These leave with it:</p>
          <ul>
            {leaving.map(({ what, id, name }) => (
              <li key={id}>{sayBrought(what, name)}</li>
            ))}
          </ul>
        </div>
      ) : null}
      {kept.length > 0 ? (
        <div className="text">
          <p>These stay, because something else uses them:</p>
          <ul>
            {kept.map(({ what, id, name, keptFor }) => (
              <li key={id}>
                {sayBrought(what, name)}: {keptFor}
              </li>
            ))}
          </ul>
        </div>
      ) : null}
    </>
  )
}

const sayBrought = (what: Brought['what'], name: string): string =>
  what === 'part' ? `${name} on the shelf` : `${name}, ${what}`

/** What an import that was taken back left in the register; nothing where all of it went. */
function Stayed({ undone }: { undone: Undone | null }) {
  if (!undone) return null
  const { wellsKept, rowsKept, stayed } = undone
  const said = [
    ...(wellsKept > 0
      ? [`${wellsKept === 1 ? '1 well' : `${wellsKept} wells`} that others have written about since`]
      : []),
    ...(rowsKept > 0 ? [`${rowsKept === 1 ? '1 row' : `${rowsKept} rows`} that somebody changed again`] : []),
    ...stayed.map((name) => `${name}, which something else uses`),
  ]
  return said.length === 0 ? (
    <p className="text">Nothing of it stayed.</p>
  ) : (
    <p className="text">What stayed: {said.join('; ')}.</p>
  )
}
