import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { DropDraft } from '@/app/ui/drop-draft'
import { PageHead } from '@/app/ui/page-head'
import { PlaceDrawing } from '@/app/ui/place/place-drawing'
import { PlaceFindings } from '@/app/ui/place/place-findings'
import { TiesTable } from '@/app/ui/place/ties-table'
import { PrintButton } from '@/app/ui/print-button'
import { deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { mayFleet } from '@/lib/access/rules'
import { ATTACHMENT_BYTES_MAX, sayBytes } from '@/lib/domain/limits'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { wellPlace } from '@/lib/records/place'
import { Adopt } from './_page/adopt'
import { PlaceHistory } from './_page/history'
import { Photos } from './_page/photos'

export const metadata: Metadata = { title: 'Place of a well' }

type Props = { params: Promise<{ wellId: string }>; searchParams: Promise<Params> }

const DONE: Readonly<Record<string, string>> = {
  yes: 'Saved. Below is what the measurement comes to; more photos can be added below.',
  corrected: 'The correction is stored.',
  adopted: 'The register has the measured coordinate now.',
  attached: 'The photo is stored.',
  already: 'This photo was there already.',
}

/** Where one head lies: drawn to scale, how sure that is, what does not fit, and every earlier measurement. */
export default async function PlacePage({ params, searchParams }: Props) {
  const { wellId } = await params
  const viewer = await deskViewer()
  const place = wellPlace(await getDb(), viewer, wellId)
  if (!place) notFound()
  const { well, owner, measured, found } = place
  const asked = await searchParams
  const saved = DONE[textParam(asked, 'saved')]
  const refused = textParam(asked, 'photos') === 'refused'
  const { units } = viewer
  return (
    <>
      <PageHead
        title={`Place of ${well.label}${well.name ? `, ${well.name}` : ''}`}
        lead={[owner?.name, well.area].filter(Boolean).join(' · ')}
      >
        <Link className="button" href={paths.findWell(wellId)} prefetch={false}>
          Find it
        </Link>
        <Link className="button button-quiet" href={paths.newPlace(wellId)} prefetch={false}>
          {measured ? 'Measure again' : 'Measure the place'}
        </Link>
        <Link className="button button-quiet" href={paths.wellPlates(wellId)} prefetch={false}>
          Plates
        </Link>
        <Link className="button button-quiet" href={paths.well(wellId)} prefetch={false}>
          To the well
        </Link>
        <PrintButton />
      </PageHead>
      {saved ? (
        <p className="done" role="status">
          <DropDraft storageKey={`place-${wellId}`} />
          {saved}
        </p>
      ) : null}
      {refused ? (
        <p className="find-wrong" role="alert">
          Not every photo could be kept: a photo must be a JPEG, PNG or WebP of at most{' '}
          {sayBytes(ATTACHMENT_BYTES_MAX)}. Look below which are missing, and add them there.
        </p>
      ) : null}
      {measured && found ? (
        <>
          <section className="stack" aria-labelledby="says">
            <h2 id="says">What the measurement says</h2>
            <p className="muted">
              Measured on {showDay(measured.on, units)}
              {measured.byName ? ` by ${measured.byName}` : ''}.{' '}
              <Link
                className="no-print"
                href={paths.newPlace(wellId, { correct: measured.id })}
                prefetch={false}
              >
                Correct it
              </Link>
            </p>
            <PlaceFindings findings={found.findings} />
            {measured.fact.note ? <p className="text">{measured.fact.note}</p> : null}
            <Adopt place={place} mayEdit={mayFleet(viewer, 'well.edit')} units={units} />
          </section>
          <section className="stack" aria-labelledby="ties">
            <h2 id="ties">Ties</h2>
            <PlaceDrawing measured={measured} found={found} units={units} />
            <TiesTable measured={measured} found={found} units={units} />
          </section>
          <Photos place={place} entryId={measured.id} units={units} />
        </>
      ) : (
        <section className="sheet stack-tight" aria-labelledby="says">
          <h2 id="says">Nobody has measured this place yet</h2>
          <p className="text">
            While the head is in sight, take its position with the phone and tape it to three marks that will
            stay: a building corner, a post set in concrete, a boulder. Ten minutes now save a day of probing.
          </p>
        </section>
      )}
      <PlaceHistory place={place} units={units} />
    </>
  )
}
