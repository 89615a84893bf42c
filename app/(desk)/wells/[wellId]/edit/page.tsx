import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { mayFleet } from '@/lib/access/rules'
import { wellFormTexts } from '@/lib/forms/well-form-texts'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { wellWithOwner } from '@/lib/records/wells'
import { WellForm } from '../../../_register/well-form'
import { wellFormProps } from '../../../_register/well-form-props'
import { changeWell } from '../../actions'

export const metadata: Metadata = { title: 'Edit a well' }

export default async function EditWellPage({ params }: { params: Promise<{ wellId: string }> }) {
  const { wellId } = await params
  const viewer = await deskViewer()
  const db = await getDb()
  const found = mayFleet(viewer, 'well.edit') ? wellWithOwner(db, viewer, wellId) : null
  if (!found) notFound()
  const { well, owner, models } = found
  return (
    <>
      <PageHead title={`Edit ${well.label}`}>
        <Link href={paths.well(wellId)} prefetch={false}>
          Back to the well
        </Link>
        <Link href={paths.sale(wellId)} prefetch={false}>
          The property is sold
        </Link>
      </PageHead>
      <WellForm
        action={changeWell.bind(null, wellId)}
        initial={wellFormTexts(well, owner, viewer.units, models)}
        version={String(well.version)}
        submit="Save the well"
        {...wellFormProps(db, viewer)}
      />
    </>
  )
}
