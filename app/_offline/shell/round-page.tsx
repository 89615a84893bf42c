import { useEffect, useState } from 'react'
import { StopWords } from '@/app/(desk)/_rounds/visit-words'
import { OUTCOME_TONES, OUTCOME_WORDS } from '@/app/(desk)/_rounds/words'
import { ChainBanner } from '@/app/ui/chain-banner'
import { PageHead } from '@/app/ui/page-head'
import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import { STOP_OUTCOMES } from '@/lib/domain/place'
import { daysShown } from '@/lib/domain/quantity'
import type { PhoneRound, PhoneStop } from '@/lib/exchange/phone/shape'
import { paths } from '@/lib/paths'
import { listOf, onChanged } from '../queue'
import type { QueuedVisit } from '../store'
import { words } from '../take-along'
import { StateOf } from './state-of'

/** A round as it was taken along: its stops in order, what is planned at each, and the ways to its forms. */
export function OfflineRound({ user, round, takenAt }: { user: string; round: PhoneRound; takenAt: string }) {
  const closings = useClosings(user)
  useEffect(() => {
    document.title = `${round.name} – Wellround`
  }, [round])
  return (
    <>
      <PageHead title={round.name} lead={showDay(round.day, round.units)} />
      <p className="muted">From what is on this phone, last updated {words(takenAt)}.</p>
      {round.notes ? <p>{round.notes}</p> : null}
      <h2>Stops</h2>
      {round.stops.length === 0 ? <p className="muted">There is no stop on this round.</p> : null}
      <ol className="plain-list stack">
        {round.stops.map((stop) => (
          <Stop key={stop.id} stop={stop} round={round} closing={closings.get(stop.id)} />
        ))}
      </ol>
    </>
  )
}

/** What was closed on this phone since the round was taken along, by stop; the latest where one was closed twice. */
function useClosings(user: string): ReadonlyMap<string, QueuedVisit> {
  const [closings, setClosings] = useState<ReadonlyMap<string, QueuedVisit>>(new Map())
  useEffect(() => {
    const look = async () => {
      const { visits } = await listOf(user)
      setClosings(new Map(visits.flatMap((visit) => (visit.stopId ? [[visit.stopId, visit] as const] : []))))
    }
    void look()
    return onChanged(() => void look())
  }, [user])
  return closings
}

/** How a stop was closed on this phone, and how that stands. */
function ClosedHere({ closing }: { closing: QueuedVisit }) {
  const outcome = STOP_OUTCOMES.find((known) => known === closing.typed.stopOutcome)
  return (
    <>
      <p>Closed here{outcome ? `: ${OUTCOME_WORDS[outcome].toLowerCase()}` : ''}.</p>
      <StateOf visit={closing} />
    </>
  )
}

type StopProps = { stop: PhoneStop; round: PhoneRound; closing: QueuedVisit | undefined }

function Stop({ stop, round, closing }: StopProps) {
  const chains = round.wells.find(({ id }) => id === stop.wellId)?.chains ?? []
  return (
    <li className="sheet stack-tight">
      <h3>
        {stop.position}. <a href={paths.well(stop.wellId)}>{stop.label}</a>
        {stop.wellName ? ` – ${stop.wellName}` : ''}
      </h3>
      <ChainBanner wellId={stop.wellId} chains={chains} units={round.units} linked={false} />
      {stop.outcome ? (
        <p>
          <Status tone={OUTCOME_TONES[stop.outcome]}>{OUTCOME_WORDS[stop.outcome]}</Status>
        </p>
      ) : null}
      {closing ? <ClosedHere closing={closing} /> : null}
      <StopWords stop={stop} />
      {stop.duties.length > 0 ? (
        <ul>
          {stop.duties.map(({ key, name, why }) => (
            <li key={key}>
              <strong>{name}</strong>
              {why ? <span className="muted"> {daysShown(why, round.units)}</span> : null}
            </li>
          ))}
        </ul>
      ) : (
        <p className="muted">No duty is planned here.</p>
      )}
      <p className="row no-print">
        {stop.outcome || closing ? (
          <a className="button" href={paths.visit(stop.wellId)}>
            Log a visit
          </a>
        ) : (
          <a className="button" href={paths.closeStop(round.id, stop.id)}>
            Close the stop<span className="unseen"> at {stop.label}</span>
          </a>
        )}
        <a className="button button-quiet" href={paths.findWell(stop.wellId)}>
          Find the head
        </a>
        {stop.outcome || closing ? (
          <a href={paths.closeStop(round.id, stop.id)}>
            Close it again<span className="unseen">: {stop.label}</span>
          </a>
        ) : null}
      </p>
    </li>
  )
}
