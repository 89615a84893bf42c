import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import type { Day } from '@/lib/domain/quantity/day'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import { paths } from '@/lib/paths'
import type { PartRow } from '@/lib/records/parts'

type Props = { wellId: string; parts: readonly PartRow[]; units: UnitSystem; today: Day; mayEdit: boolean }

/** What is installed in the well, and what was. */
export function Parts({ wellId, parts, units, today, mayEdit }: Props) {
  return (
    <section aria-labelledby="parts" className="stack">
      <div className="group-head">
        <h2 id="parts">Parts</h2>
        {mayEdit ? (
          <Link className="no-print" href={paths.newPart(wellId)}>
            Add a part
          </Link>
        ) : null}
      </div>
      {parts.length === 0 ? <p className="muted">No parts are listed yet.</p> : null}
      <ul className="plain-list stack-tight">
        {parts.map((part) => (
          <li key={part.id}>
            <strong>{part.kind}</strong> {[part.model, part.size].filter(Boolean).join(', ')}
            {part.fittedOn ? `, fitted ${showDay(part.fittedOn, units)}` : ''}
            {part.warrantyUntil
              ? `, warranty ${part.warrantyUntil < today ? 'ended' : 'until'} ${showDay(part.warrantyUntil, units)}`
              : ''}
            {part.removedOn ? `, removed ${showDay(part.removedOn, units)}` : ''}
            {part.notes ? ` (${part.notes})` : ''}{' '}
            {mayEdit ? (
              <Link className="no-print" href={paths.part(wellId, part.id)}>
                Change<span className="unseen"> {part.kind}</span>
              </Link>
            ) : null}
          </li>
        ))}
      </ul>
    </section>
  )
}
