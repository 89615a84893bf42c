import Link from 'next/link'
import { DueDate } from '@/app/(desk)/_due/due-table'
import { ConsequenceMark } from '@/app/(desk)/_due/words'
import { showDay } from '@/app/ui/show-day'
import { daysShown } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import { BASIS_WORDS } from '@/lib/domain/upkeep/due-words'
import { limitWords } from '@/lib/forms/duty-form'
import { paths } from '@/lib/paths'
import type { WellPage } from '@/lib/records/wells'

type Props = {
  wellId: string
  rows: WellPage['duties']
  standing: WellPage['standing']
  today: Day
  units: UnitSystem
  mayEdit: boolean
}

/** The duties of a well, the earliest first, each with its date, its reason, and every limit considered. */
export function Duties({ wellId, rows, standing, today, units, mayEdit }: Props) {
  const byId = new Map(rows.map((row) => [row.id, row]))
  const duties = [...(standing?.duties ?? [])].sort((a, b) =>
    (a.due ?? '9999') < (b.due ?? '9999') ? -1 : 1,
  )
  return (
    <section aria-labelledby="duties" className="stack">
      <div className="group-head">
        <h2 id="duties">Duties</h2>
        {mayEdit ? (
          <Link className="no-print" href={paths.newDuty(wellId)} prefetch={false}>
            Add a duty
          </Link>
        ) : null}
      </div>
      {duties.length === 0 ? (
        <p className="muted">
          No duties yet. Add those that this well needs, and their dates are reckoned from the logbook.
        </p>
      ) : null}
      {duties.length > 0 ? (
        <div className="table-frame">
          <table className="table table-cards duties-table">
            <caption className="unseen">Duties of this well</caption>
            <thead>
              <tr>
                <th scope="col">Duty</th>
                <th scope="col">Due</th>
                <th scope="col">Why</th>
              </tr>
            </thead>
            <tbody>
              {duties.map((duty) => (
                <DutyLine key={duty.id} row={byId.get(duty.id)} {...{ duty, today, units, mayEdit }} />
              ))}
            </tbody>
          </table>
        </div>
      ) : null}
    </section>
  )
}

type Standing = NonNullable<WellPage['standing']>['duties'][number]
type LineProps = { duty: Standing; row: WellPage['duties'][number] | undefined } & Pick<
  Props,
  'today' | 'units' | 'mayEdit'
>

function DutyLine({ duty, row, today, units, mayEdit }: LineProps) {
  const date = { dueOn: duty.due, fromOn: duty.from, toOn: duty.to }
  return (
    <tr>
      <th scope="row" className="pair">
        {mayEdit ? (
          <Link href={paths.duty(duty.id)} prefetch={false}>
            {duty.name}
          </Link>
        ) : (
          <span>{duty.name}</span>
        )}
        <ConsequenceMark consequence={duty.consequence} />
      </th>
      <td className="pair due">
        <DueDate row={date} today={today} units={units} />
      </td>
      <td>
        {daysShown(duty.reason, units)}
        <details>
          <summary className="small-summary">
            Limits considered<span className="unseen"> for {duty.name}</span>
          </summary>
          <ul>
            <li>Set: {(row && limitWords(row, units)) ?? 'no limit'}</li>
            {duty.limits.map((limit) => (
              <li key={limit.basis}>
                By {BASIS_WORDS[limit.basis]}: {limit.due === null ? 'no date' : showDay(limit.due, units)} (
                {daysShown(limit.why, units)})
              </li>
            ))}
          </ul>
        </details>
      </td>
    </tr>
  )
}
