import type { Metadata } from 'next'
import Link from 'next/link'
import { EmptyState } from '@/app/ui/empty-state'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { type MatterKind, openAcrossFleet } from '@/lib/records/matters'
import { getDb } from '@/lib/records/open'
import { MatterList } from './matter-list'

export const metadata: Metadata = { title: 'From owners' }

const ROWS = 20

const PARTS: readonly { kind: MatterKind; title: string; cursor: string; empty: string }[] = [
  {
    kind: 'visit',
    title: 'Visits asked for',
    cursor: 'visits',
    empty: 'No household waits for a visit.',
  },
  {
    kind: 'look',
    title: 'Sent in, not yet looked at',
    cursor: 'looks',
    empty: 'Everything that households sent in has been looked at.',
  },
]

/** What households asked for and sent in, urgent and oldest first. */
export default async function FromOwnersPage({ searchParams }: { searchParams: Promise<Params> }) {
  const viewer = await deskViewer()
  const db = await getDb()
  const asked = await searchParams
  const parts = PARTS.map((part) => ({
    ...part,
    page: openAcrossFleet(db, viewer, part.kind, textParam(asked, part.cursor) || null, ROWS),
  }))
  return (
    <>
      <PageHead
        title="From owners"
        lead="A bad result counts at once. A good one of a household counts when somebody of the outfit has looked at the sheet."
      />
      {parts.map(({ kind, title, cursor, empty, page }) => (
        <section key={kind} className="stack" aria-labelledby={kind}>
          <h2 id={kind}>{title}</h2>
          {page.rows.length === 0 ? (
            <EmptyState title={empty}>
              <p>What they write on their own pages stands here until it is settled.</p>
            </EmptyState>
          ) : (
            <MatterList rows={page.rows} units={viewer.units} back={paths.fromOwners()} />
          )}
          {page.next === null ? null : (
            <p>
              <Link
                className="button button-quiet"
                href={paths.fromOwners({ [cursor]: page.next })}
                prefetch={false}
              >
                Next {ROWS}
              </Link>
            </p>
          )}
        </section>
      ))}
    </>
  )
}
