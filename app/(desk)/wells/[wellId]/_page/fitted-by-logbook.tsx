import { showDay } from '@/app/ui/show-day'
import type { PartInPlace } from '@/lib/domain/pump'
import type { UnitSystem } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'

/** Parts that visits put in and that the register does not list, newest of each kind, as items of a list. */
export function FittedByLogbook({
  fitted,
  today,
  units,
}: {
  fitted: readonly PartInPlace[]
  today: Day
  units: UnitSystem
}) {
  return fitted.map(({ part, model, on, before, warrantyUntil }) => (
    <li key={part}>
      <strong>{part}</strong> {model ?? ''} by the logbook: last fitted {showDay(on, units)}
      {before.length > 0 ? `, ${before.length} before it` : ''}; {sayWarranty(warrantyUntil, today, units)}
    </li>
  ))
}

export function sayWarranty(until: Day | null, today: Day, units: UnitSystem): string {
  if (until === null) return 'warranty not recorded'
  return `warranty ${until < today ? 'ended' : 'until'} ${showDay(until, units)}`
}

/** That a part of the register is not the newest of its kind; nothing where it is. */
export const sayNewer = (newerOn: Day | null, units: UnitSystem): string =>
  newerOn === null ? '' : ` (the logbook fitted a newer one on ${showDay(newerOn, units)})`
