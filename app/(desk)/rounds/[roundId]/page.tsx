import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { TakeAlong } from '@/app/_offline/take-along'
import { roundKey } from '@/app/_offline/taken'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import { mayFleet } from '@/lib/access/rules'
import { today } from '@/lib/clock'
import { type Timetable, timeText, timetable } from '@/lib/domain/place'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { mapTiles } from '@/lib/records/map-tiles'
import { mapWells } from '@/lib/records/map-wells'
import { getDb } from '@/lib/records/open'
import { drivers } from '@/lib/records/round-writes'
import { type RoundStop, roundPage } from '@/lib/records/rounds'
import { pickListOf } from '@/lib/records/stock'
import { DidNote } from '../../_rounds/did-note'
import { movesOf, reckonedOrder } from '../../_rounds/order'
import { PickList } from '../../_rounds/pick-list'
import { ROUND_STATUS } from '../../_rounds/words'
import { AddWellForm } from './add-well-form'
import { DaySummary } from './day-summary'
import { RoundForm } from './round-form'
import { RoundMap } from './round-map'
import { StatusButtons } from './status-buttons'
import { StopCard } from './stop-card'

export const metadata: Metadata = { title: 'Round' }

type Props = { params: Promise<{ roundId: string }>; searchParams: Promise<Params> }

/** One day's trip: its stops in order with times, what each move would cost, and what to take along. */
export default async function RoundPage({ params, searchParams }: Props) {
  const { roundId } = await params
  const viewer = await deskViewer()
  const db = await getDb()
  const page = roundPage(db, viewer, roundId)
  if (!page) notFound()
  const { round, stops } = page
  const asked = await searchParams
  const table = timetable(round, stops)
  const open = round.status !== 'closed'
  const mayPlan = mayFleet(viewer, 'round.plan') && open
  const work = stops
    .filter((stop) => stop.outcome === null)
    .map(({ wellId, label, duties }) => ({ wellId, label, dutyKeys: duties.map((duty) => duty.key) }))
  return (
    <>
      <PageHead
        title={round.name}
        lead={`${showDay(round.day, viewer.units)} · ${round.assignedTo ? round.assignedTo.name : 'nobody named yet'}`}
      >
        <Link className="button" href={paths.roundSheet(roundId)} prefetch={false}>
          Round sheet to print
        </Link>
        <Link href={paths.rounds()} prefetch={false}>
          All rounds
        </Link>
      </PageHead>
      <TakeAlong
        user={viewer.userId}
        from={paths.phoneRound(roundId)}
        storeKey={roundKey(roundId)}
        label={round.name}
        what="this round"
      />
      <DidNote
        did={textParam(asked, 'did')}
        closed={textParam(asked, 'closed')}
        cost={homeWords(textParam(asked, 'home'), table)}
      />
      <div className="here">
        <Status tone={ROUND_STATUS[round.status].tone}>{ROUND_STATUS[round.status].word}</Status>
        <StatusButtons round={round} stops={stops} />
      </div>
      {round.notes ? <p>{round.notes}</p> : null}
      <DaySummary
        round={round}
        stops={stops}
        table={table}
        reckoned={open ? reckonedOrder(round, stops) : null}
      />
      <section aria-labelledby="stops" className="stack">
        <h2 id="stops">Stops</h2>
        {stops.length === 0 ? <p className="muted">There is no stop on this round.</p> : null}
        <ol className="plain-list stack">
          {stops.map((stop) => (
            <StopCard
              key={stop.id}
              stop={stop}
              round={round}
              units={viewer.units}
              times={table?.schedule.stops.find((times) => times.id === stop.id)}
              moves={table && open ? movesOf(table, stop.id) : []}
              mayPlan={mayPlan}
            />
          ))}
        </ol>
        {mayPlan ? <AddWellForm roundId={roundId} version={round.version} /> : null}
      </section>
      <RoundMap
        round={round}
        stops={stops}
        wells={mapWells(db, viewer, today(), { wells: stops.map((stop) => stop.wellId) })}
        tiles={mapTiles(db)}
        units={viewer.units}
      />
      {open ? <PickList work={work} lines={pickListOf(db, viewer, work)} /> : null}
      {mayPlan ? (
        <RoundForm
          round={round}
          people={drivers(db, viewer)}
          empty={stops.every((s) => s.outcome === null)}
        />
      ) : null}
    </>
  )
}

/** What a change of work did to the return; `before` as HH:MM, '' where no change of work was just made. */
function homeWords(before: string, table: Timetable<RoundStop> | null): string {
  if (!table || !/^\d{2}:\d{2}$/.test(before)) return ''
  const home = timeText(table.schedule.homeS)
  return home === before ? `Home at ${home} as before.` : `Home at ${home} instead of ${before}.`
}
