import Link from 'next/link'
import { EmptyState } from '@/app/ui/empty-state'
import { PageHead } from '@/app/ui/page-head'
import { paths } from '@/lib/paths'

/** There are wells, and nothing was read at any of them yet: what to read, and what comes of it. */
export function NothingRead() {
  return (
    <>
      <PageHead title="Yield" />
      <EmptyState title="Nothing was read at any well yet">
        <p>
          This page tells whether a well is really losing its yield, and whether the season, the water table,
          the pump or the well itself is behind it. It takes three readings at each visit:
        </p>
        <ol>
          <li>the level at rest, before the pump starts,</li>
          <li>the level while pumping, before it stops, and for how long it ran,</li>
          <li>the flow, timed into a bucket at the same moment.</li>
        </ol>
        <p>
          Four such visits over nine months are the least from which anything is said of a trend. Readings
          that you have on paper or in a spreadsheet count: import them.
        </p>
        <p className="row">
          <Link className="button" href={paths.wells()} prefetch={false}>
            Choose a well to visit
          </Link>
        </p>
      </EmptyState>
    </>
  )
}

/** Nothing fits the filter. */
export function NoneFound() {
  return (
    <EmptyState title="No well here with this filter">
      <p>
        <Link href={paths.yields()} prefetch={false}>
          Show all wells
        </Link>
      </p>
    </EmptyState>
  )
}
