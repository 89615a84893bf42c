import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound, redirect } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { describeFact } from '@/lib/domain/logbook/describe'
import { unitSymbols } from '@/lib/domain/quantity'
import { correctionFields } from '@/lib/forms/correction-fields'
import { paths } from '@/lib/paths'
import { entryPage } from '@/lib/records/entry-page'
import { newId } from '@/lib/records/ids'
import { getDb } from '@/lib/records/open'
import { saveCorrection } from './actions'
import { CorrectionForm } from './correction-form'

export const metadata: Metadata = { title: 'Correct a line' }

/** Corrects one line of a logbook: the line stays as it was written, and a new one speaks for it. */
export default async function CorrectPage({ params }: { params: Promise<{ entryId: string }> }) {
  const { entryId } = await params
  const viewer = await deskViewer()
  const page = entryPage(await getDb(), viewer, entryId)
  if (!page) notFound()
  const { current, label, wellId } = page
  // A place has more fields than a line: it is corrected on its own form.
  if (current.fact.kind === 'place-measured') redirect(paths.newPlace(wellId, { correct: entryId }))
  const units = unitSymbols(viewer.units)
  return (
    <>
      <PageHead title={`Correct a line of ${label}`}>
        <Link className="button button-quiet" href={paths.withdraw(entryId)} prefetch={false}>
          Withdraw it instead
        </Link>
        <Link className="button button-quiet" href={paths.well(wellId)} prefetch={false}>
          Back to the well
        </Link>
      </PageHead>
      <p className="text">
        Now it says, for {showDay(current.on, viewer.units)}: {describeFact(current.fact, viewer.units)} The
        line stays in the logbook, struck through, with your reason beside it.
      </p>
      <CorrectionForm
        action={saveCorrection.bind(null, entryId)}
        newId={newId()}
        date={current.on}
        time={current.time ?? ''}
        fields={correctionFields(current.fact, viewer.units).map(({ use, ...field }) => ({
          ...field,
          ...(use ? { unit: units[use] } : {}),
        }))}
      />
    </>
  )
}
