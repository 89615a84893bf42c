import Link from 'next/link'
import { Status } from '@/app/ui/status'
import {
  conflictWords,
  lengthText,
  moveWords,
  type OrderCost,
  type Timetable,
  timeText,
} from '@/lib/domain/place'
import { paths } from '@/lib/paths'
import type { RoundHead, RoundStop } from '@/lib/records/rounds'
import { reckonOrder } from './actions'

type Props = {
  round: RoundHead
  stops: readonly RoundStop[]
  table: Timetable<RoundStop> | null
  reckoned: { ids: string[]; cost: OrderCost } | null
}

/** The day in one line, what cannot be kept, and what the reckoned order would save. */
export function DaySummary({ round, stops, table, reckoned }: Props) {
  if (!table) {
    return (
      <p>
        No times: the yard was not known when this round was planned.{' '}
        <Link href={paths.yard()} prefetch={false}>
          Set the yard
        </Link>{' '}
        and plan anew.
      </p>
    )
  }
  const labelOf = (id: string) => stops.find((stop) => stop.id === id)?.label ?? 'A stop'
  const { schedule, conflicts, unrouted, routed } = table
  const workS = routed.reduce((sum, stop) => sum + stop.minutes * 60, 0)
  return (
    <section className="sheet stack-tight" aria-label="The day">
      <dl className="figures">
        <Figure term="Leave the yard" value={round.startAt} />
        <Figure term="Home" value={timeText(schedule.homeS)} />
        <Figure term="Driving" value={lengthText(schedule.travelS)} />
        <Figure term="Work" value={lengthText(workS)} />
        {schedule.waitS >= 60 ? <Figure term="Waiting" value={lengthText(schedule.waitS)} /> : null}
      </dl>
      <p className="small muted">
        Driving is an estimate: the straight line × {round.driving.roadFactor} at {round.driving.speedKmH}{' '}
        km/h. Rivers and ridges are not known.
      </p>
      {conflicts.length === 0 ? (
        routed.length > 0 ? (
          <p>All hours are kept by these times.</p>
        ) : null
      ) : (
        <ul className="plain-list">
          {conflicts.map((conflict) => (
            <li key={conflict.kind === 'home-late' ? 'home' : `${conflict.kind} ${conflict.id}`}>
              <Status tone="alarm">{conflictWords(conflict, labelOf, round.endAt)}</Status>
            </li>
          ))}
        </ul>
      )}
      {unrouted.length > 0 ? (
        <p>
          <Status tone="unsure">
            Without a coordinate, in none of these times: {unrouted.map((stop) => stop.label).join(', ')}
          </Status>
        </p>
      ) : null}
      {reckoned ? <Reckon round={round} stops={stops} reckoned={reckoned} labelOf={labelOf} /> : null}
    </section>
  )
}

function Figure({ term, value }: { term: string; value: string }) {
  return (
    <div>
      <dt>{term}</dt>
      <dd>{value}</dd>
    </div>
  )
}

function Reckon({
  round,
  stops,
  reckoned,
  labelOf,
}: {
  round: RoundHead
  stops: readonly RoundStop[]
  reckoned: { ids: string[]; cost: OrderCost }
  labelOf: (id: string) => string
}) {
  const same = reckoned.ids.every((id, i) => stops[i]?.id === id)
  if (same) return <p className="no-print">The stops are in the reckoned order.</p>
  return (
    <form className="row no-print" action={reckonOrder.bind(null, round.id)}>
      <input type="hidden" name="version" value={round.version} />
      <button type="submit" className="button button-quiet">
        Put in the reckoned order ({moveWords(reckoned.cost, labelOf)})
      </button>
      {stops.some((stop) => stop.locked) ? (
        <span className="muted">Locked and closed stops stay in their place.</span>
      ) : null}
    </form>
  )
}
