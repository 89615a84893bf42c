import { showDay } from '@/app/ui/show-day'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import { fittedParts } from '@/lib/domain/logbook/fitted'
import { partsInPlace, toldOnce } from '@/lib/domain/pump'
import type { UnitSystem } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'
import type { PartRow } from '@/lib/records/parts'
import { FittedByLogbook, sayWarranty } from '../../_page/fitted-by-logbook'

type Props = { parts: readonly PartRow[]; facts: readonly CurrentFact[]; today: Day; units: UnitSystem }

/** The newest part of each kind, of the register or of the logbook, with its warranty. */
export function PartsInPlace({ parts, facts, today, units }: Props) {
  const { register, logbook } = toldOnce(parts, partsInPlace(fittedParts(facts)))
  const newest = register.filter(({ newerOn }) => newerOn === null)
  return (
    <section aria-labelledby="parts" className="stack-tight">
      <h2 id="parts">Parts in place</h2>
      {newest.length + logbook.length === 0 ? (
        <p className="muted">No part is in the register and none was fitted by the logbook.</p>
      ) : null}
      <ul>
        {newest.map((part) => (
          <li key={part.id}>
            <strong>{part.kind}</strong> {[part.model, part.size].filter(Boolean).join(', ')}
            {part.fittedOn ? `, fitted ${showDay(part.fittedOn, units)}` : ', day of fitting not recorded'};{' '}
            {sayWarranty(part.warrantyUntil, today, units)}
          </li>
        ))}
        <FittedByLogbook fitted={logbook} today={today} units={units} />
      </ul>
    </section>
  )
}
