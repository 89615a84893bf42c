import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { PrintButton } from '@/app/ui/print-button'
import { deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { today } from '@/lib/clock'
import { conflictWords, lengthText, timeText, timetable } from '@/lib/domain/place'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { wellPlace } from '@/lib/records/place'
import { roundPage } from '@/lib/records/rounds'
import { getOutfit } from '@/lib/records/settings'
import { pickListOf } from '@/lib/records/stock'
import { PickList } from '../../../_rounds/pick-list'
import { RoundStopBlock } from './stop-block'

export const metadata: Metadata = { title: 'Round sheet' }

/** A round on paper: the day, what to load, and one block a stop with room to write. */
export default async function RoundSheetPage({ params }: { params: Promise<{ roundId: string }> }) {
  const { roundId } = await params
  const viewer = await deskViewer()
  const db = await getDb()
  const page = roundPage(db, viewer, roundId)
  if (!page) notFound()
  const { round, stops } = page
  const table = timetable(round, stops)
  const outfit = getOutfit(db)
  const labelOf = (id: string) => stops.find((stop) => stop.id === id)?.label ?? 'A stop'
  const work = stops.map(({ wellId, label, duties }) => ({
    wellId,
    label,
    dutyKeys: duties.map((duty) => duty.key),
  }))
  return (
    <>
      <PageHead
        title={`Round sheet: ${round.name}`}
        lead={[
          [outfit.name, outfit.contact].filter(Boolean).join(', '),
          showDay(round.day, viewer.units),
          round.assignedTo?.name ?? '',
          `printed ${showDay(today(), viewer.units)}`,
        ]
          .filter(Boolean)
          .join(' · ')}
      >
        <PrintButton />
        <Link href={paths.round(roundId)} prefetch={false}>
          Back to the round
        </Link>
      </PageHead>
      {table ? (
        <p>
          Leave the yard {round.startAt}, home {timeText(table.schedule.homeS)}.{' '}
          {lengthText(table.schedule.travelS)} of driving, an estimate: straight line ×{' '}
          {round.driving.roadFactor} at {round.driving.speedKmH} km/h.
        </p>
      ) : (
        <p>No times: the yard was not known when this round was planned.</p>
      )}
      {table?.conflicts.map((conflict) => (
        <p key={conflict.kind === 'home-late' ? 'home' : `${conflict.kind} ${conflict.id}`}>
          <strong>{conflictWords(conflict, labelOf, round.endAt)}</strong>
        </p>
      ))}
      {round.notes ? <p>{round.notes}</p> : null}
      <PickList work={work} lines={pickListOf(db, viewer, work)} />
      {stops.map((stop) => (
        <RoundStopBlock
          key={stop.id}
          stop={stop}
          times={table?.schedule.stops.find((times) => times.id === stop.id)}
          units={viewer.units}
          place={wellPlace(db, viewer, stop.wellId)?.measured ?? null}
        />
      ))}
    </>
  )
}
