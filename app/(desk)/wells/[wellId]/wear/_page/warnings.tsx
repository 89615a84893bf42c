import { Status } from '@/app/ui/status'
import { sentence } from '@/lib/domain/logbook/wear-words'
import type { Forecast } from '@/lib/domain/pump'
import { daysShown, type UnitSystem } from '@/lib/domain/quantity'

/** What a person should look at, besides the date. */
export function Warnings({ of, units }: { of: Forecast; units: UnitSystem }) {
  if (of.kind === 'cannot-say' || of.warnings.length === 0) return null
  return (
    <ul className="plain-list stack-tight">
      {of.warnings.map((warning) => (
        <li key={warning}>
          <Status tone="watch">Look at this:</Status> {sentence(daysShown(warning, units))}
        </li>
      ))}
    </ul>
  )
}
