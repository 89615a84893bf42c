import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { ChainBanner } from '@/app/ui/chain-banner'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { Status } from '@/app/ui/status'
import { today } from '@/lib/clock'
import { paths } from '@/lib/paths'
import { newId } from '@/lib/records/ids'
import { getDb } from '@/lib/records/open'
import { stopPage } from '@/lib/records/rounds'
import { VisitWords } from '../../../../_rounds/visit-words'
import { OUTCOME_TONES, OUTCOME_WORDS } from '../../../../_rounds/words'
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
  return (
    <>
      <PageHead
        title={`Close the stop at ${stop.label}`}
        lead={[stop.wellName, `stop ${stop.position} of ${round.name}`].filter(Boolean).join(' · ')}
      >
        <Link href={paths.round(roundId)} prefetch={false}>
          Back to the round
        </Link>
      </PageHead>
      <ChainBanner wellId={stop.wellId} chains={stop.chains} units={viewer.units} />
      {stop.outcome ? (
        <p>
          <Status tone={OUTCOME_TONES[stop.outcome]}>
            Closed: {OUTCOME_WORDS[stop.outcome].toLowerCase()}
          </Status>{' '}
          Closing it again keeps the first lines in the logbook, and the later closing holds.
        </p>
      ) : null}
      <section className="sheet stack-tight" aria-labelledby="worked">
        <h2 id="worked">Work was done</h2>
        <p>
          {stop.duties.length > 0
            ? `Planned: ${stop.duties.map((duty) => duty.name).join(', ')}.`
            : 'No duty was planned here.'}
        </p>
        <VisitWords
          well={{
            visitFrom: stop.notBefore,
            visitUntil: stop.doneBy,
            gateCode: stop.gateCode,
            hazards: stop.hazards,
          }}
        />
        <p>
          <Link className="button" href={paths.visit(stop.wellId, { stop: stop.id })} prefetch={false}>
            Done or partly: write down the visit
          </Link>
        </p>
      </section>
      <section className="sheet stack-tight" aria-labelledby="not-reached">
        <h2 id="not-reached">Not found, or no access</h2>
        <NotReachedForm
          action={saveNotReached.bind(null, roundId, stopId)}
          stopId={stopId}
          visitId={newId()}
          day={today()}
          by={viewer.name}
        />
      </section>
    </>
  )
}
