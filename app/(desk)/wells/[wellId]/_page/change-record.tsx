import { showDay } from '@/app/ui/show-day'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import type { WellPage } from '@/lib/records/wells'

/** Who changed what of this well, newest first. */
export function ChangeRecord({ changes, units }: { changes: WellPage['changes']; units: UnitSystem }) {
  if (changes.length === 0) return null
  return (
    <details className="section no-print">
      <summary>Change record ({changes.length === 50 ? 'the last 50' : changes.length})</summary>
      <div className="section-body">
        <ul className="plain-list">
          {changes.map((change) => (
            <li key={change.id}>
              {showDay(change.at.slice(0, 10), units)} {change.at.slice(11, 16)} UTC, {change.byName}:{' '}
              {change.action}
            </li>
          ))}
        </ul>
      </div>
    </details>
  )
}
