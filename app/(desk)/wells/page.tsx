import type { Metadata } from 'next'
import Link from 'next/link'
import { EmptyState } from '@/app/ui/empty-state'
import { PageHead } from '@/app/ui/page-head'
import { Pager } from '@/app/ui/pager'
import { deskViewer } from '@/app/ui/session'
import { mayFleet } from '@/lib/access/rules'
import { today } from '@/lib/clock'
import { type Params, readWellsQuery } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { dueFacets } from '@/lib/records/due-list'
import { getDb } from '@/lib/records/open'
import { hasWells, wellList } from '@/lib/records/well-list'
import { NoWells } from '../_due/empty'
import { WellSearchForm } from './well-search-form'
import { WellTable } from './well-table'

export const metadata: Metadata = { title: 'Wells' }

const ROWS = 50

export default async function WellsPage({ searchParams }: { searchParams: Promise<Params> }) {
  const viewer = await deskViewer()
  const db = await getDb()
  if (!hasWells(db, viewer)) return <NoWells viewer={viewer} title="Wells" />
  const query = readWellsQuery(await searchParams)
  const { rows, next } = wellList(db, viewer, query.filter, query.after, ROWS)
  const mayEdit = mayFleet(viewer, 'duty.edit')
  return (
    <>
      <PageHead title="Wells">
        {mayFleet(viewer, 'well.edit') ? (
          <>
            <Link className="button button-quiet" href={paths.models()} prefetch={false}>
              Pump and cartridge models
            </Link>
            <Link className="button" href={paths.newWell()} prefetch={false}>
              Add a well
            </Link>
          </>
        ) : null}
      </PageHead>
      <WellSearchForm query={query} facets={dueFacets(db, viewer)} />
      {rows.length === 0 ? (
        <EmptyState title={query.texts.retired ? 'No retired well here' : 'No well is found so'}>
          <p>
            The search looks at the beginnings of words in label, name, owner and area: “orch” finds “North
            orchard”.{' '}
            <Link href={paths.wells()} prefetch={false}>
              Show all wells
            </Link>
          </p>
        </EmptyState>
      ) : (
        <form className="stack" action={paths.bulkDuties()} method="get">
          {mayEdit ? <BulkBar query={query} /> : null}
          <WellTable rows={rows} today={today()} units={viewer.units} choosable={mayEdit} />
        </form>
      )}
      <Pager
        first={query.after === null ? null : paths.wells(query.texts)}
        next={next === null ? null : paths.wells({ ...query.texts, after: next })}
      >
        Next {ROWS}
      </Pager>
    </>
  )
}

/** Gives the wells ticked below, or all that the search finds, a duty in one step. */
function BulkBar({ query }: { query: ReturnType<typeof readWellsQuery> }) {
  return (
    <div className="row no-print">
      {Object.entries(query.texts).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <button className="button button-quiet" type="submit">
        Give those chosen a duty
      </button>
      <button className="button button-plain" type="submit" name="all" value="1">
        {query.filtered ? 'Give all that this search finds a duty' : 'Give all wells a duty'}
      </button>
      <button className="button button-quiet" type="submit" formAction={paths.bulkSetUp()}>
        Set those chosen up alike
      </button>
      <button
        className="button button-plain"
        type="submit"
        name="all"
        value="1"
        formAction={paths.bulkSetUp()}
      >
        {query.filtered ? 'Set all that this search finds up alike' : 'Set all wells up alike'}
      </button>
    </div>
  )
}
