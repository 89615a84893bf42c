import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { PrintButton } from '@/app/ui/print-button'
import { ownViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { describeFact } from '@/lib/domain/logbook/describe'
import { paths } from '@/lib/paths'
import { pastWell } from '@/lib/records/grants'
import { getDb } from '@/lib/records/open'

export const metadata: Metadata = { title: 'A well you had' }

/** What the logbook of a sold well held up to the granted day, to read and print. Nothing here says how the well is now. */
export default async function PastWellPage({ params }: { params: Promise<{ wellId: string }> }) {
  const { wellId } = await params
  const viewer = await ownViewer()
  const found = pastWell(await getDb(), viewer, wellId)
  if (!found) notFound()
  const { grant, visits } = found
  const show = (day: string) => showDay(day, viewer.units)
  return (
    <>
      <PageHead
        title={grant.called}
        lead={`You had this well until ${show(grant.upTo)}. You can read what was written down up to that day. It does not say how the well or its water is now.`}
      >
        <PrintButton />
        <Link className="button button-quiet" href={paths.own()} prefetch={false}>
          Back to your wells
        </Link>
      </PageHead>
      {visits.length === 0 ? <p>Nothing was written down up to that day.</p> : null}
      {visits.map((visit) => (
        <article key={visit.visitId} className="sheet stack-tight">
          <h2>
            {show(visit.on)}
            {visit.by.length > 0 ? <span className="muted"> by {visit.by.join(', ')}</span> : null}
          </h2>
          <ul className="plain-list">
            {visit.lines
              .filter((line) => line.stands)
              .map((line) => (
                <li key={line.id}>{describeFact(line.fact, viewer.units)}</li>
              ))}
          </ul>
        </article>
      ))}
    </>
  )
}
