import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { today } from '@/lib/clock'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { newId } from '@/lib/records/ids'
import { getDb } from '@/lib/records/open'
import { stockModels } from '@/lib/records/stock-items'
import { visitSetting } from '@/lib/records/visit-context'
import { stopToClose } from '../../../_rounds/stop-to-close'
import { saveVisit } from './actions'
import { VisitForm } from './visit-form'
import { visitWords } from './visit-words'

export const metadata: Metadata = { title: 'Log a visit' }

type Props = { params: Promise<{ wellId: string }>; searchParams: Promise<Params> }

/** The one form for everything that a visit to a well can leave in its logbook. */
export default async function VisitPage({ params, searchParams }: Props) {
  const { wellId } = await params
  const viewer = await deskViewer()
  const db = await getDb()
  const setting = visitSetting(db, viewer, wellId)
  if (!setting) notFound()
  const stop = stopToClose(db, viewer, wellId, textParam(await searchParams, 'stop'))
  const day = today()
  const last = Object.fromEntries(
    Object.entries(setting.last).map(([field, { on, reading }]) => [field, { on, typed: reading.typed }]),
  )
  const draftKey = stop ? `stop-${stop.id}` : `visit-${wellId}`
  return (
    <>
      <PageHead title={`Visit to ${setting.label}`} lead={setting.name ?? undefined}>
        <Link className="button button-quiet" href={paths.wellWater(wellId)} prefetch={false}>
          Water: steps and lab sheets
        </Link>
        <Link className="button button-quiet" href={paths.well(wellId)} prefetch={false}>
          Back to the well
        </Link>
      </PageHead>
      <VisitForm
        action={saveVisit.bind(null, wellId)}
        about={{
          user: viewer.userId,
          wellId,
          label: setting.label,
          units: viewer.units,
          draftKey,
          roundId: stop?.roundId,
        }}
        draftKey={draftKey}
        stop={stop}
        visitId={newId()}
        day={day}
        by={viewer.name}
        models={stockModels(db, viewer)}
        {...visitWords({ duties: setting.duties, last }, day, viewer.units)}
      />
    </>
  )
}
