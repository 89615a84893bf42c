import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { ownViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { today } from '@/lib/clock'
import { unitSymbols } from '@/lib/domain/quantity'
import { paths } from '@/lib/paths'
import { newId } from '@/lib/records/ids'
import { getDb } from '@/lib/records/open'
import { type LastField, visitSetting } from '@/lib/records/visit-context'
import { saveOwnReading } from './actions'
import { ReadingForm } from './reading-form'

export const metadata: Metadata = { title: 'Write down a reading' }

const METERS = [
  { name: 'volumeMeter', label: 'Water meter', use: 'volume' },
  { name: 'hourMeter', label: 'Hours on the pump', use: 'hours' },
  { name: 'staticLevel', label: 'Water level in the well, pump off', use: 'depth' },
] as const satisfies readonly { name: LastField; label: string; use: string }[]

/** A household never opens the well: a level is theirs to read only where a gauge shows it. */
const FROM_OUTSIDE = 'Only if a gauge shows it from outside. Do not open the well'

/** A reading by the household. Meters that were read before come first in sight with their last figure. */
export default async function OwnReadingPage({ params }: { params: Promise<{ wellId: string }> }) {
  const { wellId } = await params
  const viewer = await ownViewer()
  const setting = visitSetting(await getDb(), viewer, wellId)
  if (!setting) notFound()
  const units = unitSymbols(viewer.units)
  return (
    <>
      <PageHead
        title="Write down a reading"
        lead="Fill in what you read, and leave the rest blank. The outfit sees it too."
      >
        <Link className="button button-quiet" href={paths.ownWell(wellId)} prefetch={false}>
          Back to your well
        </Link>
      </PageHead>
      <ReadingForm
        action={saveOwnReading.bind(null, wellId)}
        visitId={newId()}
        draftKey={`reading-${wellId}`}
        day={today()}
        meters={METERS.map(({ name, label, use }) => {
          const last = setting.last[name]
          return {
            name,
            label,
            unit: units[use],
            last: [
              name === 'staticLevel' ? FROM_OUTSIDE : '',
              last ? `Last ${last.reading.typed} on ${showDay(last.on, viewer.units)}` : '',
            ]
              .filter(Boolean)
              .join('. '),
          }
        })}
      />
    </>
  )
}
