import { useEffect } from 'react'
import { VisitWords } from '@/app/(desk)/_rounds/visit-words'
import { OUTCOME_WORDS } from '@/app/(desk)/_rounds/words'
import { ChainBanner } from '@/app/ui/chain-banner'
import { PageHead } from '@/app/ui/page-head'
import { showDay } from '@/app/ui/show-day'
import type { PhoneRound, PhoneStop } from '@/lib/exchange/phone/shape'
import { paths } from '@/lib/paths'
import { words } from '../take-along'

/** A round as it was taken along: its stops in order, what is planned at each, and the ways to its forms. */
export function OfflineRound({ round, takenAt }: { round: PhoneRound; takenAt: string }) {
  useEffect(() => {
    document.title = `${round.name} – Wellround`
  }, [round])
  return (
    <>
      <PageHead title={round.name} lead={showDay(round.day, round.units)} />
      <p className="muted">
        From what is on this phone, last updated {words(takenAt)}. Stops closed here since then show once they
        are sent.
      </p>
      {round.notes ? <p>{round.notes}</p> : null}
      <h2>Stops</h2>
      {round.stops.length === 0 ? <p className="muted">There is no stop on this round.</p> : null}
      <ol className="plain-list stack">
        {round.stops.map((stop) => (
          <Stop key={stop.id} stop={stop} round={round} />
        ))}
      </ol>
    </>
  )
}

function Stop({ stop, round }: { stop: PhoneStop; round: PhoneRound }) {
  const chains = round.wells.find(({ id }) => id === stop.wellId)?.chains ?? []
  return (
    <li className="sheet stack-tight">
      <h3>
        {stop.position}. <a href={paths.well(stop.wellId)}>{stop.label}</a>
        {stop.wellName ? ` – ${stop.wellName}` : ''}
      </h3>
      <ChainBanner wellId={stop.wellId} chains={chains} units={round.units} linked={false} />
      {stop.outcome ? <p>{OUTCOME_WORDS[stop.outcome]}.</p> : null}
      <VisitWords
        well={{
          visitFrom: stop.notBefore,
          visitUntil: stop.doneBy,
          gateCode: stop.gateCode,
          hazards: stop.hazards,
        }}
      />
      {stop.duties.length > 0 ? (
        <ul>
          {stop.duties.map(({ key, name, why }) => (
            <li key={key}>
              <strong>{name}</strong>
              {why ? <span className="muted"> {why}</span> : null}
            </li>
          ))}
        </ul>
      ) : (
        <p className="muted">No duty is planned here.</p>
      )}
      <p className="row">
        <a className="button" href={`${paths.visit(stop.wellId)}${stop.outcome ? '' : `?stop=${stop.id}`}`}>
          Log the visit
        </a>
        <a className="button button-quiet" href={paths.findWell(stop.wellId)}>
          Find the head
        </a>
      </p>
    </li>
  )
}
