import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { mayFleet } from '@/lib/access/rules'
import { dutyFormTexts, limitUnits, templateOfKey } from '@/lib/forms/duty-form'
import { paths } from '@/lib/paths'
import { visibleDuty } from '@/lib/records/duties'
import { getDb } from '@/lib/records/open'
import { DutyForm } from '../../_register/duty-form'
import { changeDuty } from '../actions'

export const metadata: Metadata = { title: 'Change a duty' }

export default async function DutyPage({ params }: { params: Promise<{ dutyId: string }> }) {
  const { dutyId } = await params
  const viewer = await deskViewer()
  const duty = mayFleet(viewer, 'duty.edit') ? visibleDuty(await getDb(), viewer, dutyId) : null
  if (!duty) notFound()
  const template = templateOfKey(duty.key)
  return (
    <>
      <PageHead title={duty.name}>
        <Link className="button button-quiet" href={paths.well(duty.wellId)} prefetch={false}>
          Back to the well
        </Link>
      </PageHead>
      {template ? (
        <p className="text">
          <span className="muted">Where the usual limits come from: </span>
          {template.basisNote}
        </p>
      ) : null}
      <DutyForm
        action={changeDuty.bind(null, dutyId)}
        initial={dutyFormTexts(duty, viewer.units)}
        units={limitUnits(viewer.units)}
        submit="Save the duty"
        version={String(duty.version)}
        retire
      />
    </>
  )
}
