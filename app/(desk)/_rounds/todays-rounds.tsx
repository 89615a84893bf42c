import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import type { Day, UnitSystem } from '@/lib/domain/quantity'
import { paths } from '@/lib/paths'
import type { RoundLine } from '@/lib/records/rounds'
import { ROUND_STATUS } from './words'

/** The rounds of today on the front page of whoever drives them; nothing where there are none. */
export function TodaysRounds({
  rounds,
  today,
  units,
}: {
  rounds: readonly RoundLine[]
  today: Day
  units: UnitSystem
}) {
  if (rounds.length === 0) return null
  return (
    <section className="sheet stack-tight" aria-labelledby="todays-rounds">
      <h2 id="todays-rounds">{rounds.length === 1 ? 'Your round' : 'Your rounds'}</h2>
      <ul className="plain-list stack-tight">
        {rounds.map((round) => (
          <li key={round.id} className="here">
            <Link href={paths.round(round.id)} prefetch={false}>
              {round.name}
            </Link>
            <span>{round.day === today ? 'today' : showDay(round.day, units)}</span>
            <Status tone={ROUND_STATUS[round.status].tone}>{ROUND_STATUS[round.status].word}</Status>
            <span className="muted">
              {round.closed} of {round.stops} stops closed
            </span>
          </li>
        ))}
      </ul>
    </section>
  )
}
