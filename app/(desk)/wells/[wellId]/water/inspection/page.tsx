import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { today } from '@/lib/clock'
import { WHO_DUG_WELL } from '@/lib/domain/water/tables/sanitary'
import { paths } from '@/lib/paths'
import { newId } from '@/lib/records/ids'
import { getDb } from '@/lib/records/open'
import { visibleWell } from '@/lib/records/wells'
import { saveWater } from '../actions'
import { InspectionForm } from './inspection-form'

export const metadata: Metadata = { title: 'Sanitary inspection' }

/** A look round the well: where could dirt get in? */
export default async function InspectionPage({ params }: { params: Promise<{ wellId: string }> }) {
  const { wellId } = await params
  const viewer = await deskViewer()
  const well = visibleWell(await getDb(), viewer, wellId)
  if (!well) notFound()
  const { source, section, date } = WHO_DUG_WELL
  return (
    <>
      <PageHead
        title={`Sanitary inspection of ${well.label}`}
        lead="A “yes” is a risk that is there. “Not sure” is not “no”: it widens the score. Look from above; nobody goes into a well or pit."
      >
        <Link className="button button-quiet" href={paths.wellWater(wellId)} prefetch={false}>
          Water of the well
        </Link>
      </PageHead>
      <p className="muted small text">
        Questions in our own words after {source}, {section} ({date}), from memory.
      </p>
      <InspectionForm
        action={saveWater.bind(null, wellId, '')}
        questions={WHO_DUG_WELL.questions}
        visitId={newId()}
        day={today()}
        by={viewer.name}
        draftKey={`inspection-${wellId}`}
      />
    </>
  )
}
