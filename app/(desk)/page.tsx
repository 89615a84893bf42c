import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { signedInViewer } from '@/app/ui/session'
import { today } from '@/lib/clock'
import { type Params, readDueQuery } from '@/lib/forms/list-filters'
import { dueCounts, dueFacets, duePage, URGENCIES } from '@/lib/records/due-list'
import { dueOverview } from '@/lib/records/due-overview'
import { openFollowUps } from '@/lib/records/follow-ups'
import { getDb } from '@/lib/records/open'
import { roundsToDrive } from '@/lib/records/rounds'
import { hasWells } from '@/lib/records/well-list'
import { DueFilterForm } from './_due/due-filter-form'
import { DueGroups } from './_due/due-groups'
import { NothingDue, NoWells } from './_due/empty'
import { FromOwners } from './_due/from-owners'
import { StatusStrip } from './_due/status-strip'
import { FollowUps } from './_rounds/follow-ups'
import { TodaysRounds } from './_rounds/todays-rounds'

export const metadata: Metadata = { title: 'Due' }

/** Rows of a group while all groups are in sight, fewer of what can wait; and while one is read through. */
const ROWS_TOGETHER = { past: 25, week: 25, month: 25, later: 10, unknown: 10 } as const
const ROWS_ALONE = 50

export default async function DuePage({ searchParams }: { searchParams: Promise<Params> }) {
  const viewer = await signedInViewer()
  if (viewer.role === 'owner') redirect('/own')
  const db = await getDb()
  if (!hasWells(db, viewer)) return <NoWells viewer={viewer} title="Due" />
  const query = readDueQuery(await searchParams)
  const day = today()
  const counts = dueCounts(db, viewer, day, query.filter)
  const groups = (query.group ? [query.group] : URGENCIES).map((urgency) => ({
    urgency,
    count: counts[urgency],
    page: duePage(
      db,
      viewer,
      day,
      urgency,
      query.filter,
      query.group ? query.after : null,
      query.group ? ROWS_ALONE : ROWS_TOGETHER[urgency],
    ),
  }))
  const empty = groups.every((group) => group.page.rows.length === 0)
  return (
    <>
      <PageHead title="Due" />
      <TodaysRounds rounds={roundsToDrive(db, viewer, day)} today={day} units={viewer.units} />
      <FollowUps stops={openFollowUps(db, viewer)} units={viewer.units} back="rounds" most={3} />
      <StatusStrip overview={dueOverview(db, viewer, day)} today={day} units={viewer.units} />
      <FromOwners db={db} viewer={viewer} />
      <DueFilterForm query={query} facets={dueFacets(db, viewer)} />
      {empty ? (
        <NothingDue query={query} />
      ) : (
        <DueGroups groups={groups} query={query} today={day} units={viewer.units} />
      )}
    </>
  )
}
