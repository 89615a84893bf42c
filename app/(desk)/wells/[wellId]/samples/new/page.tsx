import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { visibleWell } from '@/lib/records/wells'
import { saveSheet } from './actions'
import { NewSheet } from './new-sheet'

export const metadata: Metadata = { title: 'Log a lab sheet' }

/** A laboratory's sheet, pasted or typed, as it stands on paper. */
export default async function NewSamplePage({ params }: { params: Promise<{ wellId: string }> }) {
  const { wellId } = await params
  const viewer = await deskViewer()
  const well = visibleWell(await getDb(), viewer, wellId)
  if (!well) notFound()
  return (
    <>
      <PageHead
        title={`Lab sheet for ${well.label}${well.name ? `, ${well.name}` : ''}`}
        lead="Copy it as the laboratory wrote it: <1, ND, Absent, >2419.6, 0.05 J. What it means is said after it is stored."
      >
        <Link className="button button-quiet" href={paths.well(wellId)} prefetch={false}>
          Back to the well
        </Link>
      </PageHead>
      <NewSheet action={saveSheet.bind(null, wellId)} wellId={wellId} viewer={viewer} />
    </>
  )
}
