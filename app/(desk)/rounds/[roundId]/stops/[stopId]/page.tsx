import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import { today } from '@/lib/clock'
import { newId } from '@/lib/records/ids'
import { getDb } from '@/lib/records/open'
import { stopPage } from '@/lib/records/rounds'
import { CloseStop } from '../../../../_rounds/close-stop'
import { saveNotReached } from './actions'
import { NotReachedForm } from './not-reached-form'

export const metadata: Metadata = { title: 'Close a stop' }

type Props = { params: Promise<{ roundId: string; stopId: string }> }

/** How a stop ended: on to the visit form where work was done, or the short form where it was not reached. */
export default async function CloseStopPage({ params }: Props) {
  const { roundId, stopId } = await params
  const viewer = await deskViewer()
  const found = stopPage(await getDb(), viewer, stopId)
  if (!found || found.round.id !== roundId) notFound()
  const { round, stop } = found
  const draftKey = `stop-${stopId}`
  const { userId: user, units } = viewer
  return (
    <CloseStop round={round} stop={stop} chains={stop.chains} units={units}>
      <NotReachedForm
        action={saveNotReached.bind(null, roundId, stopId)}
        about={{ user, wellId: stop.wellId, label: stop.label, units, draftKey, roundId }}
        draftKey={draftKey}
        stopId={stopId}
        visitId={newId()}
        day={today()}
        by={viewer.name}
      />
    </CloseStop>
  )
}
