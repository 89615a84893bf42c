import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { mayFleet } from '@/lib/access/rules'
import { getDb } from '@/lib/records/open'
import { WellForm } from '../../_register/well-form'
import { wellFormProps } from '../../_register/well-form-props'
import { addWell } from '../actions'

export const metadata: Metadata = { title: 'Add a well' }

export default async function NewWellPage() {
  const viewer = await deskViewer()
  if (!mayFleet(viewer, 'well.edit')) notFound()
  return (
    <>
      <PageHead title="Add a well" />
      <WellForm
        action={addWell}
        initial={{}}
        submit="Add the well"
        {...wellFormProps(await getDb(), viewer)}
      />
    </>
  )
}
