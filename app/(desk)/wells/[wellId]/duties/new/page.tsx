import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { mayFleet } from '@/lib/access/rules'
import { limitUnits, templateOfKey, templateTexts } from '@/lib/forms/duty-form'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { visibleWell } from '@/lib/records/wells'
import { DutyForm } from '../../../../_register/duty-form'
import { LibraryChoice } from '../../../../_register/library-choice'
import { giveOneDuty } from '../../../../duties/actions'

export const metadata: Metadata = { title: 'Add a duty' }

type Props = { params: Promise<{ wellId: string }>; searchParams: Promise<Params> }

export default async function NewDutyPage({ params, searchParams }: Props) {
  const { wellId } = await params
  const viewer = await deskViewer()
  const well = mayFleet(viewer, 'duty.edit') ? visibleWell(await getDb(), viewer, wellId) : null
  if (!well) notFound()
  const chosen = textParam(await searchParams, 'template')
  const template = templateOfKey(chosen)
  return (
    <>
      <PageHead title={`Add a duty to ${well.label}`}>
        <Link className="button button-quiet" href={paths.well(wellId)} prefetch={false}>
          Back to the well
        </Link>
      </PageHead>
      <LibraryChoice action={paths.newDuty(wellId)} chosen={chosen} />
      <DutyForm
        key={chosen}
        action={giveOneDuty.bind(null, wellId)}
        initial={template ? templateTexts(template, viewer.units) : {}}
        units={limitUnits(viewer.units)}
        submit="Add the duty"
      />
    </>
  )
}
