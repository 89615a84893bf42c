import type { Metadata } from 'next'
import Link from 'next/link'
import { EmptyState } from '@/app/ui/empty-state'
import { PageHead } from '@/app/ui/page-head'
import { demand, deskViewer } from '@/app/ui/session'
import { today } from '@/lib/clock'
import { weekday } from '@/lib/domain/place'
import type { Params } from '@/lib/forms/list-filters'
import { readPlanQuery } from '@/lib/forms/round-plan'
import { paths } from '@/lib/paths'
import { dueFacets } from '@/lib/records/due-list'
import { newId } from '@/lib/records/ids'
import { getDb } from '@/lib/records/open'
import { proposeStops } from '@/lib/records/round-proposal'
import { drivers } from '@/lib/records/round-writes'
import { getYard } from '@/lib/records/yard'
import { LeftOutList } from './left-out-list'
import { PlanForm } from './plan-form'
import { planDays, unrouted } from './plan-view'
import { PlanQueryForm } from './query-form'

export const metadata: Metadata = { title: 'Plan a round' }

/** Asks for days and hours, and proposes which wells to visit on them, each with its reasons. */
export default async function PlanPage({ searchParams }: { searchParams: Promise<Params> }) {
  const viewer = await deskViewer()
  await demand(viewer, 'round.plan')
  const db = await getDb()
  const setting = getYard(db)
  if (!setting.yard) return <NoYard />
  const query = readPlanQuery(await searchParams, setting, today(), weekday)
  const people = drivers(db, viewer)
  const found = query.asked && query.wish ? proposeStops(db, viewer, setting, query.wish) : null
  return (
    <>
      <PageHead title="Plan a round" lead="A round is one day’s trip from the yard and back.">
        <Link href={paths.rounds()} prefetch={false}>
          Back to the rounds
        </Link>
      </PageHead>
      <PlanQueryForm query={query} areas={dueFacets(db, viewer).areas} people={people} />
      {found && query.wish ? (
        <>
          {found.notWeighed > 0 ? (
            <p>
              The 200 most pressing wells were weighed; {found.notWeighed} more have something due. Choose an
              area to see those.
            </p>
          ) : null}
          <PlanForm
            planId={newId()}
            days={planDays(found, query.wish, viewer.units)}
            byHand={unrouted(found, query.wish)}
            hidden={{ start: query.wish.startAt, end: query.wish.endAt, person: query.texts.person }}
          />
          <LeftOutList found={found} units={viewer.units} />
        </>
      ) : null}
    </>
  )
}

function NoYard() {
  return (
    <>
      <PageHead title="Plan a round" />
      <EmptyState title="Where is the yard?">
        <p>Rounds start and end at the yard, and driving is reckoned from there. It was not set yet.</p>
        <p>
          <Link href={paths.yard()} prefetch={false}>
            Set the yard and the usual day
          </Link>
        </p>
      </EmptyState>
    </>
  )
}
