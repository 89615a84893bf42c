import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import { describeFact } from '@/lib/domain/logbook/describe'
import type { Matter } from '@/lib/domain/logbook/owner-matters'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import { paths } from '@/lib/paths'
import type { OwnWell } from '@/lib/records/own-well'

/** What the household asked for, and what the outfit asks them; nothing where nothing is open. */
export function Waiting({ well, units }: { well: OwnWell; units: UnitSystem }) {
  const matters = well.matters.filter((one) => one.kind === 'visit' || one.state !== 'new')
  if (matters.length === 0) return null
  return (
    <section className="sheet stack" aria-labelledby="open">
      <h2 id="open">Open between you and the outfit</h2>
      <ul className="plain-list stack">
        {matters.map((matter) => (
          <li key={matter.id} className="stack-tight">
            <p>
              <State matter={matter} units={units} />
            </p>
            <p className="text">
              {describeFact(matter.fact, units)} <span className="muted">{showDay(matter.on, units)}</span>
            </p>
            {matter.kind === 'look' && matter.question !== null ? (
              <p className="text">
                The outfit asks: “{matter.question}”{' '}
                <Link href={paths.ownAnswer(well.id, matter.id)} prefetch={false}>
                  {matter.answer === null ? 'Answer' : 'Say more'}
                </Link>
              </p>
            ) : null}
          </li>
        ))}
      </ul>
    </section>
  )
}

function State({ matter, units }: { matter: Matter; units: UnitSystem }) {
  if (matter.kind === 'look')
    return matter.state === 'answered' ? (
      <Status tone="note">You answered</Status>
    ) : (
      <Status tone="watch">The outfit has a question</Status>
    )
  if (matter.state === 'open') return <Status tone="note">You asked for a visit</Status>
  return (
    <Status tone="calm">
      {matter.promised ? `They plan to come on ${showDay(matter.promised, units)}` : 'They plan to come'}
    </Status>
  )
}
