import { ChainBanner } from '@/app/ui/chain-banner'
import { showDay } from '@/app/ui/show-day'
import { describeFact } from '@/lib/domain/logbook/describe'
import type { MeasuredPlace } from '@/lib/domain/logbook/place-record'
import { lengthText, type StopTimes, timeText } from '@/lib/domain/place'
import { daysShown, type UnitSystem } from '@/lib/domain/quantity'
import { partsHint } from '@/lib/domain/upkeep/truck'
import type { RoundStop } from '@/lib/records/rounds'
import { VisitWords } from '../../../_rounds/visit-words'
import { OUTCOME_WORDS } from '../../../_rounds/words'

/** What most visits read; each gets a line to write on. */
const READINGS = [
  'Hour meter',
  'Volume meter',
  'Level at rest',
  'Level pumping',
  'Flow',
  'Pressure before / after',
  'Amps / volts',
]
const OUTCOMES = ['done', 'partly', 'not-found', 'no-access'] as const

type Props = { stop: RoundStop; times: StopTimes | undefined; units: UnitSystem; place: MeasuredPlace | null }

/** One stop on paper: how to get in and find the head, what is to be done and why, and room to write. */
export function RoundStopBlock({ stop, times, units, place }: Props) {
  const where = [
    stop.area,
    stop.at ? `${stop.at.latitude.toFixed(5)}, ${stop.at.longitude.toFixed(5)}` : 'no coordinate',
    stop.owner ? [stop.owner.name, stop.owner.phone].filter(Boolean).join(', ') : 'no owner named',
  ].filter(Boolean)
  return (
    <section className="sheet stop" aria-labelledby={`block-${stop.id}`}>
      <h2 id={`block-${stop.id}`}>
        {stop.position}. {stop.label}
        {stop.wellName ? ` – ${stop.wellName}` : ''}
      </h2>
      <ChainBanner wellId={stop.wellId} chains={stop.chains} units={units} />
      {times ? (
        <p>
          Arrive {timeText(times.arriveS)}
          {times.waitS >= 60 ? `, begin ${timeText(times.beginS)}` : ''}, leave {timeText(times.leaveS)} (work{' '}
          {lengthText(stop.minutes * 60)})
        </p>
      ) : null}
      <p>{where.join(' · ')}</p>
      {place ? (
        <p>
          Head, as measured {showDay(place.on, units)}: {describeFact(place.fact, units)}
        </p>
      ) : (
        <p>No ties are on record for the head.</p>
      )}
      {stop.access ? <p>Way in: {stop.access}</p> : null}
      <VisitWords
        well={{
          visitFrom: stop.notBefore,
          visitUntil: stop.doneBy,
          visitDays: stop.onlyOn,
          gateCode: stop.gateCode,
          hazards: stop.hazards,
        }}
      />
      {stop.why.map((sentence) => (
        <p key={sentence}>{daysShown(sentence, units)}</p>
      ))}
      <ul className="plain-list stack-tight">
        {stop.duties.map((duty) => (
          <li key={duty.key} className="sheet-item">
            <span className="tick" aria-hidden="true" />
            <div>
              <strong>{duty.name}</strong>
              {duty.why ? `: ${daysShown(duty.why, units)}` : ''}
              {partsHint(duty.key).length > 0 ? (
                <div className="muted">Take along: {partsHint(duty.key).join(', ')}</div>
              ) : null}
            </div>
          </li>
        ))}
      </ul>
      <div className="write">
        {READINGS.map((reading) => (
          <div key={reading} className="write-line">
            <span>{reading}</span>
          </div>
        ))}
        <div className="write-line write-wide">
          <span>Note</span>
        </div>
        <div className="write-line write-wide">
          <span>What was left or tried, and what is to follow</span>
        </div>
        <div className="write-line write-wide">
          <span>Done by, date and time</span>
        </div>
      </div>
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
