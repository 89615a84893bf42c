import { showDay } from '@/app/ui/show-day'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import { fittedParts } from '@/lib/domain/logbook/fitted'
import { partsInPlace } from '@/lib/domain/pump'
import type { UnitSystem } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'
import type { PartRow } from '@/lib/records/parts'

type Props = { parts: readonly PartRow[]; facts: readonly CurrentFact[]; today: Day; units: UnitSystem }

/** Parts in place by the register, with their warranty, and what the logbook says was fitted last. */
export function PartsInPlace({ parts, facts, today, units }: Props) {
  const inPlace = parts.filter((part) => part.removedOn === null)
  const fitted = partsInPlace(fittedParts(facts))
  return (
    <section aria-labelledby="parts" className="stack-tight">
      <h2 id="parts">Parts in place</h2>
      {inPlace.length + fitted.length === 0 ? (
        <p className="muted">No part is in the register and none was fitted by the logbook.</p>
      ) : null}
      <ul>
        {inPlace.map((part) => (
          <li key={part.id}>
            <strong>{part.kind}</strong> {[part.model, part.size].filter(Boolean).join(', ')}
            {part.fittedOn ? `, fitted ${showDay(part.fittedOn, units)}` : ', day of fitting not recorded'};{' '}
            {sayWarranty(part.warrantyUntil, today, units)}
          </li>
        ))}
        {fitted.map(({ part, model, on, before, warrantyUntil }) => (
          <li key={part}>
            <strong>{part}</strong> {model ?? ''} by the logbook: last fitted {showDay(on, units)}
            {before.length > 0 ? `, ${before.length} before it` : ''};{' '}
            {sayWarranty(warrantyUntil, today, units)}
          </li>
        ))}
      </ul>
    </section>
  )
}

function sayWarranty(until: Day | null, today: Day, units: UnitSystem): string {
  if (until === null) return 'warranty not recorded'
  return `warranty ${until < today ? 'ended' : 'until'} ${showDay(until, units)}`
}
