import { showDay } from '@/app/ui/show-day'
import { placeInBrief } from '@/lib/domain/logbook/describe-place'
import type { MeasuredPlace } from '@/lib/domain/logbook/place-record'
import { lengthText, type StopTimes, timeText } from '@/lib/domain/place'
import { daysShown, type UnitSystem } from '@/lib/domain/quantity'
import type { RoundStop } from '@/lib/records/rounds'
import { SheetDuty } from '../../../_rounds/sheet-duty'
import { SheetHead } from '../../../_rounds/sheet-head'
import { OUTCOME_WORDS } from '../../../_rounds/words'
import { WriteLines } from '../../../_rounds/write-lines'

const OUTCOMES = ['done', 'partly', 'not-found', 'no-access'] as const

type Props = { stop: RoundStop; times: StopTimes | undefined; units: UnitSystem; place: MeasuredPlace | null }

/** One stop on paper: how to get in and find the head, what is to be done and why, and room to write. */
export function RoundStopBlock({ stop, times, units, place }: Props) {
  const well = {
    ...stop,
    id: stop.wellId,
    name: stop.wellName,
    visitFrom: stop.notBefore,
    visitUntil: stop.doneBy,
    visitDays: stop.onlyOn,
  }
  return (
    <section className="sheet stop" aria-labelledby={`block-${stop.id}`}>
      <SheetHead
        well={well}
        number={stop.position}
        headingId={`block-${stop.id}`}
        chains={stop.chains}
        units={units}
      >
        {times ? <p>{timesWords(times, stop.minutes)}</p> : null}
        {place ? (
          <p>
            Head, as measured {showDay(place.on, units)}: {placeInBrief(place.fact, units)}.
          </p>
        ) : (
          <p>No ties are on record for the head.</p>
        )}
      </SheetHead>
      {stop.note ? <p>Note: {stop.note}</p> : null}
      {stop.why.map((sentence) => (
        <p key={sentence}>{daysShown(sentence, units)}</p>
      ))}
      <ul className="plain-list stack-tight">
        {stop.duties.map((duty) => (
          <SheetDuty key={duty.key} dutyKey={duty.key}>
            <strong>{duty.name}</strong>
            {duty.why ? `: ${daysShown(duty.why, units)}` : ''}
          </SheetDuty>
        ))}
      </ul>
      <WriteLines asked={['What was left or tried, and what is to follow']} />
      <p className="row">
        {OUTCOMES.map((outcome) => (
          <span key={outcome}>
            <span className="tick" aria-hidden="true" /> {OUTCOME_WORDS[outcome]}
          </span>
        ))}
      </p>
    </section>
  )
}

function timesWords({ arriveS, waitS, beginS, leaveS }: StopTimes, minutes: number): string {
  const begin = waitS >= 60 ? `, begin ${timeText(beginS)}` : ''
  return `Arrive ${timeText(arriveS)}${begin}, leave ${timeText(leaveS)} (work ${lengthText(minutes * 60)})`
}
