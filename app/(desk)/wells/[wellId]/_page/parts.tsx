import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import { fittedParts } from '@/lib/domain/logbook/fitted'
import { partsInPlace, toldOnce } from '@/lib/domain/pump'
import type { Day } from '@/lib/domain/quantity/day'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import { paths } from '@/lib/paths'
import type { PartRow } from '@/lib/records/parts'
import { FittedByLogbook, sayNewer, sayWarranty } from './fitted-by-logbook'

type Props = {
  wellId: string
  parts: readonly PartRow[]
  facts: readonly CurrentFact[]
  units: UnitSystem
  today: Day
  mayEdit: boolean
}

/** What is installed in the well by register and logbook, each part once, and what was. */
export function Parts({ wellId, parts, facts, units, today, mayEdit }: Props) {
  const { register, logbook } = toldOnce(parts, partsInPlace(fittedParts(facts)))
  const newer = new Map(register.map(({ id, newerOn }) => [id, newerOn]))
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
      {parts.length + logbook.length === 0 ? <p className="muted">No parts are listed yet.</p> : null}
      <ul className="plain-list stack-tight">
        {parts.map((part) => (
          <li key={part.id}>
            <strong>{part.kind}</strong> {[part.model, part.size].filter(Boolean).join(', ')}
            {part.fittedOn ? `, fitted ${showDay(part.fittedOn, units)}` : ''}
            {part.warrantyUntil ? `, ${sayWarranty(part.warrantyUntil, today, units)}` : ''}
            {part.removedOn ? `, removed ${showDay(part.removedOn, units)}` : ''}
            {sayNewer(newer.get(part.id) ?? null, units)}
            {part.notes ? ` (${part.notes})` : ''}{' '}
            {mayEdit ? (
              <Link className="no-print" href={paths.part(wellId, part.id)}>
                Change<span className="unseen"> {part.kind}</span>
              </Link>
            ) : null}
          </li>
        ))}
        <FittedByLogbook fitted={logbook} today={today} units={units} />
      </ul>
    </section>
  )
}
