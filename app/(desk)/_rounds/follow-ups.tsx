import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import type { UnitSystem } from '@/lib/domain/quantity'
import { paths } from '@/lib/paths'
import type { OpenFollowUp } from '@/lib/records/follow-ups'
import { settle } from '../rounds/[roundId]/actions'
import { StepList } from './step-list'
import { OUTCOME_TONES, OUTCOME_WORDS } from './words'

type Props = {
  stops: readonly OpenFollowUp[]
  units: UnitSystem
  back: 'rounds' | 'well'
  /** At most so many are shown here; the rest stands under Rounds. */
  most?: number
}

/** What stops that were not done left to be seen to; nothing where nothing is open. */
export function FollowUps({ stops, units, back, most }: Props) {
  if (stops.length === 0) return null
  const shown = most === undefined ? stops : stops.slice(0, most)
  return (
    <section aria-labelledby="follow-ups" className="stack-tight">
      <h2 id="follow-ups">To follow from rounds</h2>
      <ul className="plain-list stack">
        {shown.map((stop) => (
          <li key={stop.stopId} className="sheet stack-tight">
            <p className="here">
              {back === 'well' ? null : (
                <Link href={paths.well(stop.wellId)} prefetch={false}>
                  <strong>{stop.label}</strong>
                </Link>
              )}
              <Status tone={OUTCOME_TONES[stop.outcome]}>{OUTCOME_WORDS[stop.outcome]}</Status>
              <span>{showDay(stop.closedOn, units)}</span>
              <Link href={paths.round(stop.roundId)} prefetch={false}>
                {stop.roundName}
              </Link>
              {stop.closedBy ? <span className="muted">{stop.closedBy}</span> : null}
            </p>
            {stop.said ? <p>{stop.said}</p> : null}
            <StepList steps={stop.steps} units={units} />
            <form action={settle.bind(null, stop.stopId, back, stop.wellId)} className="no-print">
              <button type="submit" className="button button-quiet">
                Seen to<span className="unseen"> ({stop.label})</span>
              </button>
            </form>
          </li>
        ))}
      </ul>
      {shown.length < stops.length ? (
        <p>
          <Link href={paths.rounds()} prefetch={false}>
            {stops.length - shown.length} more under Rounds
          </Link>
        </p>
      ) : null}
    </section>
  )
}
