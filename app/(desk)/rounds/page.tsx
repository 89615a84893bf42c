import type { Metadata } from 'next'
import { EmptyState } from '@/app/ui/empty-state'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { getDb } from '@/lib/records/open'
import { roundsOf } from '@/lib/records/rounds'
import { RoundList } from './round-list'

export const metadata: Metadata = { title: 'Rounds' }

/** Every round: on the road, planned, closed. */
export default async function RoundsPage() {
  const viewer = await deskViewer()
  const db = await getDb()
  const out = roundsOf(db, viewer, 'out')
  const planned = roundsOf(db, viewer, 'planned')
  const closed = roundsOf(db, viewer, 'closed')
  const none = out.length + planned.length + closed.length === 0
  return (
    <>
      <PageHead title="Rounds" />
      {none ? (
        <EmptyState title="No round is planned yet">
          <p>A round is one day’s trip from the yard and back, with the wells to visit in order.</p>
        </EmptyState>
      ) : (
        <>
          <RoundList id="out" title="On the road" rounds={out} units={viewer.units} />
          <RoundList id="planned" title="Planned" rounds={planned} units={viewer.units} />
          <RoundList id="closed" title="Closed" rounds={closed} units={viewer.units} />
        </>
      )}
    </>
  )
}
