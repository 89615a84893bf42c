import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { today } from '@/lib/clock'
import { unitSymbols } from '@/lib/domain/quantity'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { placeTexts } from '@/lib/forms/place/texts'
import { paths } from '@/lib/paths'
import { newId } from '@/lib/records/ids'
import { getDb } from '@/lib/records/open'
import { measuredPlace } from '@/lib/records/place'
import { visibleWell } from '@/lib/records/wells'
import { savePlace } from './actions'
import { PlaceForm } from './place-form'

export const metadata: Metadata = { title: 'Measure the place' }

type Props = { params: Promise<{ wellId: string }>; searchParams: Promise<Params> }

/** Measures where a head lies while it is in sight, or corrects what was measured. */
export default async function NewPlacePage({ params, searchParams }: Props) {
  const { wellId } = await params
  const viewer = await deskViewer()
  const db = await getDb()
  const well = visibleWell(db, viewer, wellId)
  if (!well) notFound()
  const correctId = textParam(await searchParams, 'correct')
  const before = correctId === '' ? null : measuredPlace(db, viewer, wellId, correctId)
  if (correctId !== '' && !before) notFound()
  const symbols = unitSymbols(viewer.units)
  return (
    <>
      <PageHead
        title={`${before ? 'Correct the place' : 'Place'} of ${well.label}${well.name ? `, ${well.name}` : ''}`}
        lead={
          before
            ? 'The line stays in the logbook as it was, with your reason beside it.'
            : 'Fill in what you can measure; the rest stays unknown.'
        }
      >
        <Link className="button button-quiet" href={paths.wellPlace(wellId)} prefetch={false}>
          Back to the place
        </Link>
      </PageHead>
      <PlaceForm
        action={savePlace.bind(null, wellId, before?.id ?? '')}
        correcting={before !== null}
        initial={before ? placeTexts(before.fact, viewer.units) : {}}
        draftKey={before ? `place-${wellId}-${before.spokenBy}` : `place-${wellId}`}
        visitId={newId()}
        day={before?.on ?? today()}
        by={viewer.name}
        units={viewer.units}
        distance={symbols.distance}
        depth={symbols.depth}
      />
    </>
  )
}
