import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import { Status, type Tone } from '@/app/ui/status'
import type { Day, UnitSystem } from '@/lib/domain/quantity'
import { addDays } from '@/lib/domain/quantity/day'
import { sayDistance } from '@/lib/domain/upkeep/due-words'
import { analyteName } from '@/lib/domain/water/analytes'
import { GROUP_NAMES } from '@/lib/domain/water/group-words'
import type { TestDuty } from '@/lib/domain/water/sampling'
import { paths } from '@/lib/paths'

type Props = { wellId: string; duties: readonly TestDuty[]; today: Day; units: UnitSystem }

/** What is to be tested next, when, and who says so. */
export function Tests({ wellId, duties, today, units }: Props) {
  if (duties.length === 0) return null
  return (
    <section className="stack-tight" aria-labelledby="tests">
      <div className="group-head">
        <h2 id="tests">To be tested</h2>
        <Link className="no-print" href={paths.sampling(wellId)} prefetch={false}>
          Sampling sheet
        </Link>
      </div>
      <div className="table-frame">
        <table className="table table-cards">
          <caption className="unseen">Tests and when they are due</caption>
          <thead>
            <tr>
              <th scope="col">Test</th>
              <th scope="col">Due</th>
              <th scope="col">Last</th>
              <th scope="col">Why</th>
            </tr>
          </thead>
          <tbody>
            {duties.map((duty) => (
              <tr key={duty.group}>
                <th scope="row" className="pair">
                  <span>{GROUP_NAMES[duty.group]}</span>
                  <span className="muted">{duty.analytes.map(analyteName).join(', ')}</span>
                </th>
                <td className="pair due">
                  <Due dueOn={duty.dueOn} today={today} units={units} />
                </td>
                <td data-label="Last">{duty.lastOn === null ? 'never' : showDay(duty.lastOn, units)}</td>
                <td className="why">
                  {duty.why}. <span className="muted">Source: {duty.source}</span>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  )
}

const SOON_DAYS = 30

function Due({ dueOn, today, units }: { dueOn: Day | null; today: Day; units: UnitSystem }) {
  if (dueOn === null) return <Status tone="alarm">now</Status>
  const tone: Tone = dueOn < today ? 'alarm' : dueOn <= addDays(today, SOON_DAYS) ? 'watch' : 'note'
  return (
    <>
      <Status tone={tone}>{dueOn < today ? 'past due' : sayDistance(dueOn, today)}</Status>
      <span className="number">{showDay(dueOn, units)}</span>
    </>
  )
}
