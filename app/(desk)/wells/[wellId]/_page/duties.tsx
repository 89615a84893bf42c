import Link from 'next/link'
import { ConsequenceMark } from '@/app/(desk)/_due/words'
import { showDay } from '@/app/ui/show-day'
import type { Day } from '@/lib/domain/quantity/day'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import { BASIS_WORDS, sayDistance } from '@/lib/domain/upkeep/due-words'
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
          <Link className="no-print" href={paths.newDuty(wellId)}>
            Add a duty
          </Link>
        ) : null}
      </div>
      {duties.length === 0 ? (
        <p className="muted">
          No duties yet. Add those that this well needs, and their dates are reckoned from the logbook.
        </p>
      ) : null}
      <ul className="plain-list stack">
        {duties.map((duty) => {
          const row = byId.get(duty.id)
          return (
            <li key={duty.id} className="sheet stack-tight">
              <div className="row">
                <strong>{mayEdit ? <Link href={paths.duty(duty.id)}>{duty.name}</Link> : duty.name}</strong>
                <ConsequenceMark consequence={duty.consequence} />
                <span className={duty.due !== null && duty.due < today ? 'overdue' : undefined}>
                  {duty.due === null
                    ? 'no date known'
                    : `${showDay(duty.due, units)}, ${sayDistance(duty.due, today)}`}
                </span>
              </div>
              <span>{duty.reason}</span>
              {duty.from !== null && duty.from !== duty.due ? (
                <span className="muted">
                  Four times in five between {showDay(duty.from, units)} and{' '}
                  {duty.to === null ? 'some later day' : showDay(duty.to, units)}.
                </span>
              ) : null}
              <details>
                <summary>Limits considered</summary>
                <ul>
                  <li>Set: {(row && limitWords(row, units)) ?? 'no limit'}</li>
                  {duty.limits.map((limit) => (
                    <li key={limit.basis}>
                      {BASIS_WORDS[limit.basis]}: {limit.due === null ? 'no date' : showDay(limit.due, units)}{' '}
                      ({limit.why})
                    </li>
                  ))}
                </ul>
              </details>
            </li>
          )
        })}
      </ul>
    </section>
  )
}
