import Link from 'next/link'
import { ChainBanner } from '@/app/ui/chain-banner'
import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import { lengthText, type StopTimes, timeText } from '@/lib/domain/place'
import { daysShown, type UnitSystem } from '@/lib/domain/quantity'
import { paths } from '@/lib/paths'
import type { RoundHead, RoundStop } from '@/lib/records/rounds'
import type { Move } from '../../_rounds/order'
import { StepList } from '../../_rounds/step-list'
import { hoursWords, StopWords } from '../../_rounds/visit-words'
import { OUTCOME_TONES, OUTCOME_WORDS } from '../../_rounds/words'
import { MoveButtons } from './move-buttons'

type Props = {
  stop: RoundStop
  round: RoundHead
  units: UnitSystem
  times: StopTimes | undefined
  moves: readonly Move[]
  mayPlan: boolean
}

/** One stop of a round on screen: when, what and why, how it ended, and where else it could stand. */
export function StopCard({ stop, round, units, times, moves, mayPlan }: Props) {
  return (
    <li className="sheet stack-tight stop-card" id={`stop-${stop.id}`}>
      <h3>
        {stop.position}.{' '}
        <Link href={paths.well(stop.wellId)} prefetch={false}>
          {stop.label}
        </Link>
        {stop.wellName ? ` – ${stop.wellName}` : ''}
      </h3>
      <ChainBanner wellId={stop.wellId} chains={stop.chains} units={units} />
      {stop.outcome === null ? <Times stop={stop} times={times} /> : <Ended stop={stop} units={units} />}
      <StopWords stop={stop} />
      {stop.access ? <p>Way in: {stop.access}</p> : null}
      {stop.owner ? (
        <p>
          {stop.owner.name}
          {stop.owner.phone ? (
            <>
              {', '}
              <a className="reach" href={`tel:${stop.owner.phone.replace(/[^\d+]/g, '')}`}>
                {stop.owner.phone}
              </a>
            </>
          ) : null}
        </p>
      ) : null}
      {stop.duties.length > 0 ? (
        <ul>
          {stop.duties.map((duty) => (
            <li key={duty.key}>
              <strong>{duty.name}</strong>
              {duty.why ? <span className="muted"> {daysShown(duty.why, units)}</span> : null}
            </li>
          ))}
        </ul>
      ) : (
        <p className="muted">No duty is planned here.</p>
      )}
      {stop.why.map((sentence) => (
        <p key={sentence}>{daysShown(sentence, units)}</p>
      ))}
      <div className="row no-print">
        {stop.outcome === null && round.status !== 'closed' ? (
          <Link className="button" href={paths.closeStop(round.id, stop.id)} prefetch={false}>
            Close this stop
          </Link>
        ) : null}
        {stop.outcome === null ? (
          <Link className="button button-quiet" href={paths.findWell(stop.wellId)} prefetch={false}>
            Find the head<span className="unseen"> of {stop.label}</span>
          </Link>
        ) : null}
        {mayPlan && stop.outcome === null ? (
          <Link className="button button-quiet" href={paths.stopWork(round.id, stop.id)} prefetch={false}>
            Change the work<span className="unseen"> at {stop.label}</span>
          </Link>
        ) : null}
        {stop.locked ? <Status tone="note">Locked in its place</Status> : null}
      </div>
      {stop.outcome === null && round.status !== 'closed' ? (
        <MoveButtons stop={stop} round={round} moves={moves} mayPlan={mayPlan} />
      ) : null}
    </li>
  )
}

function Times({ stop, times }: { stop: RoundStop; times: StopTimes | undefined }) {
  if (!times)
    return <p className="muted">No coordinate: its way is not in the times. Work {stop.minutes} min.</p>
  const wait = times.waitS >= 60 ? `, wait ${lengthText(times.waitS)} until ${timeText(times.beginS)}` : ''
  return (
    <>
      <p>
        Drive {lengthText(times.travelS)}, arrive {timeText(times.arriveS)}
        {wait}, work {lengthText(stop.minutes * 60)}, leave {timeText(times.leaveS)}
      </p>
      {times.lateS >= 30 ? (
        <p>
          <Status tone="alarm">
            Late by {lengthText(times.lateS)}: the owner’s wish is {hoursWords(stop.notBefore, stop.doneBy)}
          </Status>
        </p>
      ) : null}
    </>
  )
}

function Ended({ stop, units }: { stop: RoundStop; units: UnitSystem }) {
  if (stop.outcome === null) return null
  return (
    <>
      <p className="here">
        <Status tone={OUTCOME_TONES[stop.outcome]}>{OUTCOME_WORDS[stop.outcome]}</Status>
        {stop.closedOn ? <span>{showDay(stop.closedOn, units)}</span> : null}
        {stop.closedBy ? <span className="muted">{stop.closedBy}</span> : null}
      </p>
      {stop.said ? <p>{stop.said}</p> : null}
      <StepList steps={stop.nextSteps} units={units} settled={stop.settledAt !== null} />
    </>
  )
}
