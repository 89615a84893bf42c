import Link from 'next/link'
import { Status } from '@/app/ui/status'
import { lengthText, type StopTimes, timeText } from '@/lib/domain/place'
import { paths } from '@/lib/paths'
import type { RoundStop } from '@/lib/records/rounds'
import { OUTCOME_TONES, OUTCOME_WORDS } from '../../_rounds/words'

/** One stop of a round on screen. */
export function StopCard({ stop, times }: { stop: RoundStop; times: StopTimes | undefined }) {
  return (
    <li className="sheet stack-tight" id={`stop-${stop.id}`}>
      <h2>
        {stop.position}. <Link href={paths.well(stop.wellId)}>{stop.label}</Link>
        {stop.wellName ? ` – ${stop.wellName}` : ''}
      </h2>
      {times ? (
        <p>
          Arrive {timeText(times.arriveS)}, work {lengthText(stop.minutes * 60)}
        </p>
      ) : null}
      {stop.outcome ? (
        <Status tone={OUTCOME_TONES[stop.outcome]}>{OUTCOME_WORDS[stop.outcome]}</Status>
      ) : null}
    </li>
  )
}
