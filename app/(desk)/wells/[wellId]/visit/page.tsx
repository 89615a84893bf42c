import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { today } from '@/lib/clock'
import { EVENT_WORDS } from '@/lib/domain/logbook/describe'
import { EVENTS, PART_KINDS } from '@/lib/domain/logbook/kinds'
import { unitSymbols } from '@/lib/domain/quantity'
import { sayDistance } from '@/lib/domain/upkeep/due-words'
import { WHO_DUG_WELL } from '@/lib/domain/water/tables/sanitary'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { newId } from '@/lib/records/ids'
import { getDb } from '@/lib/records/open'
import { stockModels } from '@/lib/records/stock-items'
import { type LastField, visitSetting } from '@/lib/records/visit-context'
import { stopToClose } from '../../../_rounds/stop-to-close'
import { saveVisit } from './actions'
import { VisitForm } from './visit-form'

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
  const last: Partial<Record<LastField, string>> = {}
  for (const [field, { on, reading }] of Object.entries(setting.last)) {
    last[field as LastField] = `last ${reading.typed} on ${showDay(on, viewer.units)}`
  }
  return (
    <>
      <PageHead title={`Visit to ${setting.label}`} lead={setting.name ?? undefined}>
        <Link className="button button-quiet" href={paths.wellWater(wellId)}>
          Water: steps and lab sheets
        </Link>
        <Link className="button button-quiet" href={paths.well(wellId)}>
          Back to the well
        </Link>
      </PageHead>
      <VisitForm
        action={saveVisit.bind(null, wellId)}
        draftKey={stop ? `stop-${stop.id}` : `visit-${wellId}`}
        stop={stop}
        visitId={newId()}
        day={day}
        by={viewer.name}
        units={unitSymbols(viewer.units)}
        last={last}
        duties={setting.duties.map((duty) => ({
          key: duty.key,
          name: duty.name,
          hint: duty.due ? sayDistance(duty.due, day) : 'no date known',
        }))}
        models={stockModels(db, viewer)}
        parts={[{ value: '', label: 'no part' }, ...PART_KINDS.map((kind) => ({ value: kind, label: kind }))]}
        events={[
          { value: '', label: 'nothing special' },
          ...EVENTS.map((event) => ({ value: event, label: EVENT_WORDS[event] })),
        ]}
        inspection={WHO_DUG_WELL.questions}
      />
    </>
  )
}
