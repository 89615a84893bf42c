import type { Metadata } from 'next'
import { PageHead } from '@/app/ui/page-head'
import { Pager } from '@/app/ui/pager'
import { deskViewer } from '@/app/ui/session'
import { today } from '@/lib/clock'
import { type Params, readYieldQuery } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { dueFacets } from '@/lib/records/due-list'
import { getDb } from '@/lib/records/open'
import { hasWells } from '@/lib/records/well-list'
import { causeCounts, fleetCalls, yieldPage } from '@/lib/records/yield-list'
import { NoWells } from '../_due/empty'
import { NoneFound, NothingRead } from './empty'
import { FleetCalls } from './fleet-calls'
import { YieldFilterForm } from './yield-filter-form'
import { YieldTable } from './yield-table'

export const metadata: Metadata = { title: 'Yield' }

const ROWS = 25

/** The fleet by how likely each well is losing capacity. */
export default async function YieldPage({ searchParams }: { searchParams: Promise<Params> }) {
  const viewer = await deskViewer()
  const db = await getDb()
  if (!hasWells(db, viewer)) return <NoWells viewer={viewer} title="Yield" />
  const query = readYieldQuery(await searchParams)
  const { rows, next } = yieldPage(db, viewer, query.filter, query.after, ROWS)
  const nothingRead = !query.filtered && query.after === null && rows.every((row) => row.suspicion === 0)
  if (nothingRead) return <NothingRead />
  const calls = fleetCalls(db, viewer)
  return (
    <>
      <PageHead
        title="Yield"
        lead="Which wells give less than they did, why, and when it will matter: the likeliest loss first."
      />
      <FleetCalls calls={calls} counts={causeCounts(db, viewer)} />
      <YieldFilterForm query={query} areas={dueFacets(db, viewer).areas} />
      {rows.length === 0 ? (
        <NoneFound />
      ) : (
        <YieldTable rows={rows} calls={calls} today={today()} units={viewer.units} />
      )}
      <Pager
        first={query.after === null ? null : paths.yields(query.texts)}
        next={next === null ? null : paths.yields({ ...query.texts, after: next })}
      >
        Next {ROWS}
      </Pager>
    </>
  )
}
