import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { ownViewer } from '@/app/ui/session'
import { OWNER_CAUTION } from '@/lib/domain/logbook/owner-advice'
import { paths } from '@/lib/paths'
import { newId } from '@/lib/records/ids'
import { getDb } from '@/lib/records/open'
import { getOutfit } from '@/lib/records/settings'
import { visibleWell } from '@/lib/records/wells'
import { saveAsk } from './actions'
import { AskForm } from './ask-form'

export const metadata: Metadata = { title: 'Ask for a visit' }

/** The household asks somebody to come. */
export default async function AskPage({ params }: { params: Promise<{ wellId: string }> }) {
  const { wellId } = await params
  const viewer = await ownViewer()
  const db = await getDb()
  if (!visibleWell(db, viewer, wellId)) notFound()
  const { contact } = getOutfit(db)
  return (
    <>
      <PageHead title="Ask for a visit" lead="The outfit sees it as soon as you send it.">
        <Link className="button button-quiet" href={paths.ownWell(wellId)} prefetch={false}>
          Back to your well
        </Link>
      </PageHead>
      <p className="text">
        If somebody is in danger, call for help first. Do not wait for an answer here.
        {contact === '' ? '' : ` You can also call the outfit: ${contact}.`}
      </p>
      <AskForm action={saveAsk.bind(null, wellId)} visitId={newId()} draftKey={`ask-${wellId}`} />
      <p className="text">
        {OWNER_CAUTION} See{' '}
        <Link href={paths.ownHelp(wellId)} prefetch={false}>
          what to do until somebody comes
        </Link>
        .
      </p>
    </>
  )
}
