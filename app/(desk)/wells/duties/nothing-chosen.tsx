import Link from 'next/link'
import { EmptyState } from '@/app/ui/empty-state'
import { PageHead } from '@/app/ui/page-head'
import { paths } from '@/lib/paths'

/** What a step over many wells shows where none was chosen. */
export function NothingChosen({ title }: { title: string }) {
  return (
    <>
      <PageHead title={title} />
      <EmptyState title="No well was chosen">
        <p>Tick wells in the list, or search and take all that is found.</p>
        <p>
          <Link href={paths.wells()} prefetch={false}>
            Back to the wells
          </Link>
        </p>
      </EmptyState>
    </>
  )
}
