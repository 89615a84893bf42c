import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { mayFleet } from '@/lib/access/rules'
import { PART_KINDS } from '@/lib/domain/logbook/kinds'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { visibleWell } from '@/lib/records/wells'
import { storePart } from '../actions'
import { PartForm } from '../part-form'

export const metadata: Metadata = { title: 'Add a part' }

export default async function NewPartPage({ params }: { params: Promise<{ wellId: string }> }) {
  const { wellId } = await params
  const viewer = await deskViewer()
  const well = mayFleet(viewer, 'well.edit') ? visibleWell(await getDb(), viewer, wellId) : null
  if (!well) notFound()
  return (
    <>
      <PageHead title={`Add a part to ${well.label}`}>
        <Link className="button button-quiet" href={paths.well(wellId)} prefetch={false}>
          Back to the well
        </Link>
      </PageHead>
      <PartForm
        action={storePart.bind(null, wellId, null)}
        initial={{}}
        kinds={PART_KINDS}
        submit="Add the part"
      />
    </>
  )
}
