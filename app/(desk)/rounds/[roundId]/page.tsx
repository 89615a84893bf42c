import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { timetable } from '@/lib/domain/place'
import { getDb } from '@/lib/records/open'
import { roundPage } from '@/lib/records/rounds'
import { StopCard } from './stop-card'

export const metadata: Metadata = { title: 'Round' }

/** One day's trip: its stops in order, with times. */
export default async function RoundPage({ params }: { params: Promise<{ roundId: string }> }) {
  const { roundId } = await params
  const viewer = await deskViewer()
  const page = roundPage(await getDb(), viewer, roundId)
  if (!page) notFound()
  const { round, stops } = page
  const table = timetable(round, stops)
  return (
    <>
      <PageHead title={round.name} lead={showDay(round.day, viewer.units)} />
      <ol className="plain-list stack">
        {stops.map((stop) => (
          <StopCard key={stop.id} stop={stop} times={table?.schedule.stops.find((t) => t.id === stop.id)} />
        ))}
      </ol>
    </>
  )
}
