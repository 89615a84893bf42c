import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { FindSheet } from '@/app/ui/place/find-sheet'
import { PrintButton } from '@/app/ui/print-button'
import { QrCode } from '@/app/ui/qr-code'
import { deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { today } from '@/lib/clock'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { siteUrl } from '@/lib/records/auth'
import { newId } from '@/lib/records/ids'
import { getDb } from '@/lib/records/open'
import { wellPlace } from '@/lib/records/place'
import { VisitWords } from '../../../_rounds/visit-words'
import { saveSearch } from './actions'
import { NextTries } from './next-tries'
import { SearchForm } from './search-form'

export const metadata: Metadata = { title: 'Find the head' }

type Props = { params: Promise<{ wellId: string }>; searchParams: Promise<Params> }

/** How to find one buried head, on the phone at the site or on one sheet of paper, and whether it was found. */
export default async function FindPage({ params, searchParams }: Props) {
  const { wellId } = await params
  const viewer = await deskViewer()
  const place = wellPlace(await getDb(), viewer, wellId)
  if (!place) notFound()
  const { well, owner, measured, searches } = place
  const { units } = viewer
  const saved = textParam(await searchParams, 'saved')
  const last = searches[0]
  return (
    <>
      <PageHead
        title={`Find ${well.label}${well.name ? `, ${well.name}` : ''}`}
        lead={[owner?.name, owner?.phone, well.area].filter(Boolean).join(' · ')}
      >
        <Link className="button button-quiet" href={paths.wellPlace(wellId)} prefetch={false}>
          Place
        </Link>
        <Link className="button button-quiet" href={paths.well(wellId)} prefetch={false}>
          To the well
        </Link>
        <PrintButton />
      </PageHead>
      {saved === 'found' ? (
        <p className="done" role="status">
          Written down: the head was found.{' '}
          <Link href={paths.newPlace(wellId)} prefetch={false}>
            Measure the place while it is in sight
          </Link>
          , or{' '}
          <Link href={paths.visit(wellId)} prefetch={false}>
            log the visit
          </Link>
          .
        </p>
      ) : null}
      {saved === 'not-found' ? (
        <p className="done" role="status">
          Written down: the head was not found. What to try next stands below.
        </p>
      ) : null}
      <p className="muted">
        {measured
          ? `As measured on ${showDay(measured.on, units)}${measured.byName ? ` by ${measured.byName}` : ''}.`
          : 'This place was never measured.'}
        {last ? ` Last looked for on ${showDay(last.on, units)}: ${last.found ? 'found' : 'not found'}.` : ''}
      </p>
      <VisitWords well={well} />
      <FindSheet
        place={place}
        units={units}
        code={<QrCode text={`${siteUrl()}${paths.findWell(wellId)}`} label="Code of this page" />}
      />
      <section className="sheet stack no-print" aria-labelledby="outcome">
        <h2 id="outcome">Did you find it?</h2>
        <SearchForm
          action={saveSearch.bind(null, wellId)}
          about={{ user: viewer.userId, wellId, label: well.label, units, draftKey: `find-${wellId}` }}
          visitId={newId()}
          day={today()}
          by={viewer.name}
        />
      </section>
      <NextTries place={place} open={saved === 'not-found' || last?.found === false} />
    </>
  )
}
