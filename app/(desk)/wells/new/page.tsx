import type { Metadata } from 'next'
import { PageHead } from '@/app/ui/page-head'
import { demand, deskViewer } from '@/app/ui/session'
import { newWellDefaults } from '@/lib/records/new-well-defaults'
import { getDb } from '@/lib/records/open'
import { WellForm } from '../../_register/well-form'
import { wellFormProps } from '../../_register/well-form-props'
import { addWell } from '../actions'

export const metadata: Metadata = { title: 'Add a well' }

export default async function NewWellPage() {
  const viewer = await deskViewer()
  await demand(viewer, 'well.edit')
  const db = await getDb()
  const { closedFrom, closedTo, closedWhy } = newWellDefaults(db)
  return (
    <>
      <PageHead title="Add a well" />
      <WellForm
        action={addWell}
        initial={{ closedFrom: closedFrom ?? '', closedTo: closedTo ?? '', closedWhy: closedWhy ?? '' }}
        submit="Add the well"
        {...wellFormProps(db, viewer)}
      />
    </>
  )
}
