import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { demand, deskViewer } from '@/app/ui/session'
import { PART_KINDS } from '@/lib/domain/logbook/kinds'
import { partFormTexts } from '@/lib/forms/part-form'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { partsOfWell } from '@/lib/records/parts'
import { storePart } from '../actions'
import { PartForm } from '../part-form'

export const metadata: Metadata = { title: 'Change a part' }

export default async function PartPage({ params }: { params: Promise<{ wellId: string; partId: string }> }) {
  const { wellId, partId } = await params
  const viewer = await deskViewer()
  await demand(viewer, 'well.edit')
  const part = partsOfWell(await getDb(), viewer, wellId).find((one) => one.id === partId)
  if (!part) notFound()
  return (
    <>
      <PageHead title={`Change a part: ${part.kind}`}>
        <Link className="button button-quiet" href={paths.well(wellId)} prefetch={false}>
          Back to the well
        </Link>
      </PageHead>
      <PartForm
        action={storePart.bind(null, wellId, { id: part.id, version: part.version })}
        initial={partFormTexts(part)}
        kinds={PART_KINDS}
        submit="Save the part"
      />
    </>
  )
}
