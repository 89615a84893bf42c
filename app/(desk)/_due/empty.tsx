import Link from 'next/link'
import { EmptyState } from '@/app/ui/empty-state'
import { PageHead } from '@/app/ui/page-head'
import { mayFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { DueQuery } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'

/** The front page of an empty register. */
export function NoWells({ viewer, title }: { viewer: Viewer; title: string }) {
  return (
    <>
      <PageHead title={title} />
      <EmptyState title="No wells yet">
        <p>
          A duty is a recurring piece of upkeep on a well: a filter change, a brush check, a water sample.
          Once the wells and their duties are here, this page says what is due now, what soon, and why.
        </p>
        {mayFleet(viewer, 'import.run') ? (
          <>
            <p>The quickest start is the list that you keep today, as a CSV or Excel file.</p>
            <p className="row">
              <Link className="button" href={paths.imports()} prefetch={false}>
                Import your list
              </Link>
              <Link className="button button-quiet" href={paths.newWell()} prefetch={false}>
                Add a well by hand
              </Link>
            </p>
          </>
        ) : (
          <p>Whoever keeps the register can import them or add them by hand.</p>
        )}
      </EmptyState>
    </>
  )
}

/** There are wells, and nothing to show: because of the filter, or because no well has a duty. */
export function NothingDue({ query }: { query: DueQuery }) {
  if (query.filtered || query.group) {
    return (
      <EmptyState title="Nothing here with this filter">
        <p>
          <Link href={paths.due()} prefetch={false}>
            Show everything that is due
          </Link>
        </p>
      </EmptyState>
    )
  }
  return (
    <EmptyState title="No well has a duty yet">
      <p>
        A duty makes a well appear here: what is to be done, and after how many months, run hours or gallons.
        Choose wells in the list and give them duties from the library in one step.
      </p>
      <p>
        <Link className="button" href={paths.wells()} prefetch={false}>
          Choose wells
        </Link>
      </p>
    </EmptyState>
  )
}
