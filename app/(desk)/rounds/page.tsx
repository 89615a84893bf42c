import type { Metadata } from 'next'
import Link from 'next/link'
import { EmptyState } from '@/app/ui/empty-state'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { mayFleet } from '@/lib/access/rules'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { openFollowUps } from '@/lib/records/follow-ups'
import { getDb } from '@/lib/records/open'
import { roundsOf } from '@/lib/records/rounds'
import { DidNote } from '../_rounds/did-note'
import { FollowUps } from '../_rounds/follow-ups'
import { RoundList } from './round-list'

export const metadata: Metadata = { title: 'Rounds' }

/** Every round: on the road, planned, closed; and what closed stops left to be seen to. */
export default async function RoundsPage({ searchParams }: { searchParams: Promise<Params> }) {
  const viewer = await deskViewer()
  const db = await getDb()
  const out = roundsOf(db, viewer, 'out')
  const planned = roundsOf(db, viewer, 'planned')
  const closed = roundsOf(db, viewer, 'closed')
  const mayPlan = mayFleet(viewer, 'round.plan')
  return (
    <>
      <PageHead title="Rounds">
        {mayPlan ? (
          <Link className="button" href={paths.planRound()} prefetch={false}>
            Plan a round
          </Link>
        ) : null}
      </PageHead>
      <DidNote did={textParam(await searchParams, 'did')} />
      {out.length + planned.length + closed.length === 0 ? (
        <EmptyState title="No round is planned yet">
          <p>A round is one day’s trip from the yard and back, with the wells to visit in order.</p>
          <p>
            {mayPlan
              ? 'Press “Plan a round”: the stops are proposed from what falls due, each with its reasons.'
              : 'An installer plans it; it stands here then, and on the front page of whoever drives it.'}
          </p>
        </EmptyState>
      ) : null}
      <RoundList id="out" title="On the road" rounds={out} units={viewer.units} />
      <RoundList id="planned" title="Planned" rounds={planned} units={viewer.units} />
      <FollowUps stops={openFollowUps(db, viewer)} units={viewer.units} back="rounds" />
      <RoundList id="closed" title="Closed" rounds={closed} units={viewer.units} />
    </>
  )
}
