import { showDay } from '@/app/ui/show-day'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import { changedFields, partOfChange } from '@/lib/forms/change-words'
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
              {[change.action, partOfChange(change)].filter(Boolean).join(': ')}
              <Fields change={change} units={units} />
            </li>
          ))}
        </ul>
      </div>
    </details>
  )
}

/** What was changed, from what to what; nothing where something was added. */
function Fields({ change, units }: { change: WellPage['changes'][number]; units: UnitSystem }) {
  const fields = changedFields(change, units)
  if (fields.length === 0) return null
  return (
    <ul>
      {fields.map(({ what, was, now }) => (
        <li key={what}>
          {what}: <s>{was}</s> {now}
        </li>
      ))}
    </ul>
  )
}
