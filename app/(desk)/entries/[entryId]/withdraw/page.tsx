import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { describeFact } from '@/lib/domain/logbook/describe'
import { paths } from '@/lib/paths'
import { entryPage } from '@/lib/records/entry-page'
import { newId } from '@/lib/records/ids'
import { getDb } from '@/lib/records/open'
import { saveWithdrawal } from './actions'
import { WithdrawalForm } from './withdrawal-form'

export const metadata: Metadata = { title: 'Withdraw a line' }

/** Takes a line of a logbook back: it stays to be read, and counts for nothing. */
export default async function WithdrawPage({ params }: { params: Promise<{ entryId: string }> }) {
  const { entryId } = await params
  const viewer = await deskViewer()
  const page = entryPage(await getDb(), viewer, entryId)
  if (!page) notFound()
  return (
    <>
      <PageHead title={`Withdraw a line of ${page.label}`}>
        <Link className="button button-quiet" href={paths.correct(entryId)} prefetch={false}>
          Correct it instead
        </Link>
        <Link className="button button-quiet" href={paths.well(page.wellId)} prefetch={false}>
          Back to the well
        </Link>
      </PageHead>
      <p className="text">
        {showDay(page.current.on, viewer.units)}: {describeFact(page.current.fact, viewer.units)}
      </p>
      <p className="text">
        The line stays in the logbook, marked as withdrawn, with your reason. Due dates are reckoned without
        it. A withdrawal can itself be withdrawn.
      </p>
      <WithdrawalForm action={saveWithdrawal.bind(null, entryId)} newId={newId()} />
    </>
  )
}
