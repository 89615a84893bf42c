import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { FindSheet } from '@/app/ui/place/find-sheet'
import { PrintButton } from '@/app/ui/print-button'
import { ownViewer } from '@/app/ui/session'
import { OWNER_CAUTION } from '@/lib/domain/logbook/owner-advice'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { wellPlace } from '@/lib/records/place'

export const metadata: Metadata = { title: 'Where your well is' }

/** Where the head of a household's own well lies: it is on their land. To read and print, not to write. */
export default async function OwnFindPage({ params }: { params: Promise<{ wellId: string }> }) {
  const { wellId } = await params
  const viewer = await ownViewer()
  const place = wellPlace(await getDb(), viewer, wellId)
  if (!place) notFound()
  return (
    <>
      <PageHead title={`Where ${place.well.name ?? `well ${place.well.label}`} is`}>
        <Link className="button button-quiet" href={paths.ownWell(wellId)} prefetch={false}>
          Back to your well
        </Link>
        <PrintButton />
      </PageHead>
      <p className="text">This is to show others where the well is. {OWNER_CAUTION}</p>
      <FindSheet place={place} units={viewer.units} opens={false} />
    </>
  )
}
