import type { Metadata } from 'next'
import Link from 'next/link'
import { EmptyState } from '@/app/ui/empty-state'
import { PageHead } from '@/app/ui/page-head'
import { demand, deskViewer } from '@/app/ui/session'
import { TableFrame } from '@/app/ui/table-frame'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { householdList } from '@/lib/records/households'
import { getDb } from '@/lib/records/open'

export const metadata: Metadata = { title: 'Households' }

const ROWS = 50

/** Whom the wells belong to, and which households can look at theirs. */
export default async function HouseholdsPage({ searchParams }: { searchParams: Promise<Params> }) {
  const viewer = await deskViewer()
  await demand(viewer, 'user.manage')
  const asked = await searchParams
  const search = textParam(asked, 'search')
  const after = textParam(asked, 'after') || null
  const { rows, next } = householdList(await getDb(), viewer, search, after, ROWS)
  return (
    <>
      <PageHead
        title="Households"
        lead="Whom the wells belong to. Open one to invite its people: they see their own wells and nobody else’s."
      />
      <search>
        <form className="row" method="get">
          <label className="label" htmlFor="search">
            Name begins with
          </label>
          <input className="input input-short" id="search" name="search" defaultValue={search} />
          <button className="button button-quiet" type="submit">
            Show
          </button>
        </form>
      </search>
      {rows.length === 0 ? (
        <EmptyState title="No household here">
          <p>
            A household comes into being when a well is given an owner: edit the well, or import it with one.
          </p>
        </EmptyState>
      ) : (
        <TableFrame label="Households">
          <table className="table">
            <thead>
              <tr>
                <th scope="col">Household</th>
                <th scope="col">Wells</th>
                <th scope="col">Can sign in</th>
              </tr>
            </thead>
            <tbody>
              {rows.map((row) => (
                <tr key={row.id}>
                  <th scope="row">
                    <Link href={paths.household(row.id)} prefetch={false}>
                      {row.name}
                    </Link>
                  </th>
                  <td>{row.wells}</td>
                  <td>{row.people === 0 ? 'nobody yet' : row.people}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </TableFrame>
      )}
      {next === null ? null : (
        <p>
          <Link
            className="button button-quiet"
            href={paths.households({ search, after: next })}
            prefetch={false}
          >
            Next {ROWS}
          </Link>
        </p>
      )}
    </>
  )
}
