import Link from 'next/link'
import type { ReactNode } from 'react'
import { ChainBanner, type Chains } from '@/app/ui/chain-banner'
import { PageHead } from '@/app/ui/page-head'
import { Status } from '@/app/ui/status'
import type { PlannedDuty, StopOutcome } from '@/lib/domain/place'
import type { UnitSystem } from '@/lib/domain/quantity'
import { paths } from '@/lib/paths'
import { StopWords } from './visit-words'
import { OUTCOME_TONES, OUTCOME_WORDS } from './words'

export type ClosableStop = {
  id: string
  position: number
  wellId: string
  label: string
  wellName: string | null
  outcome: StopOutcome | null
  duties: readonly PlannedDuty[]
  note: string | null
  notBefore: string | null
  doneBy: string | null
  onlyOn: string | null
  gateCode: string | null
  hazards: string | null
}

type Props = {
  round: { id: string; name: string }
  stop: ClosableStop
  chains: Chains
  units: UnitSystem
  /** False where the page is shown without signal: the pages of the chains are not on the phone. */
  linked?: boolean
  /** How fresh the page is, where that is not now. */
  note?: ReactNode
  /** The form for a stop that was not reached. */
  children: ReactNode
}

/** How a stop ended: on to the visit form where work was done, or the short form where it was not reached. */
export function CloseStop({ round, stop, chains, units, linked = true, note, children }: Props) {
  return (
    <>
      <PageHead
        title={`Close the stop at ${stop.label}`}
        lead={[stop.wellName, `stop ${stop.position} of ${round.name}`].filter(Boolean).join(' · ')}
      >
        <Link href={paths.round(round.id)} prefetch={false}>
          Back to the round
        </Link>
      </PageHead>
      <ChainBanner wellId={stop.wellId} chains={chains} units={units} linked={linked} />
      {note}
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
        <StopWords stop={stop} />
        <p>
          <Link className="button" href={paths.visit(stop.wellId, { stop: stop.id })} prefetch={false}>
            Done or partly: write down the visit
          </Link>
        </p>
      </section>
      <section className="sheet stack-tight" aria-labelledby="not-reached">
        <h2 id="not-reached">Not found, or no access</h2>
        {children}
      </section>
    </>
  )
}
