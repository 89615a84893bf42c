import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { NewSheet } from '@/app/(desk)/wells/[wellId]/samples/new/new-sheet'
import { PageHead } from '@/app/ui/page-head'
import { ownViewer } from '@/app/ui/session'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { visibleWell } from '@/lib/records/wells'
import { saveOwnSheet } from './actions'

export const metadata: Metadata = { title: 'Send in a lab sheet' }

/** A lab sheet from the household: the same form as at the desk, with a few words more. */
export default async function OwnSheetPage({ params }: { params: Promise<{ wellId: string }> }) {
  const { wellId } = await params
  const viewer = await ownViewer()
  const well = visibleWell(await getDb(), viewer, wellId)
  if (!well) notFound()
  return (
    <>
      <PageHead title="Send in a lab sheet" lead="Have the sheet from the laboratory at hand.">
        <Link className="button button-quiet" href={paths.ownWell(wellId)} prefetch={false}>
          Back to your well
        </Link>
      </PageHead>
      <ol className="text">
        <li>Fill in when and where the sample was taken.</li>
        <li>Copy each result as it stands, signs and all. What you leave blank counts as not tested.</li>
        <li>Press “Store the sheet”. On the next page you can add a photo of it.</li>
      </ol>
      <NewSheet action={saveOwnSheet.bind(null, wellId)} wellId={wellId} viewer={viewer} />
    </>
  )
}
