import Link from 'next/link'
import { DropDraft } from '@/app/ui/drop-draft'
import { describeFact } from '@/lib/domain/logbook/describe'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import type { UnitSystem } from '@/lib/domain/quantity'
import { paths } from '@/lib/paths'

type Props = { facts: readonly CurrentFact[]; visitId: string; wellId: string; units: UnitSystem }

/** Says what was just written into the logbook. */
export function SavedStep({ facts, visitId, wellId, units }: Props) {
  const lines = visitId === '' ? [] : facts.filter((fact) => fact.visitId === visitId)
  if (lines.length === 0) return null
  return (
    <div className="done" role="status">
      {lines.some(({ fact }) => fact.kind === 'sanitary-inspection') ? (
        <DropDraft storageKey={`inspection-${wellId}`} />
      ) : null}
      <p>
        <strong>Saved.</strong> It stands in the{' '}
        <Link href={`${paths.well(wellId)}#logbook`} prefetch={false}>
          logbook
        </Link>
        , where it can be corrected.
      </p>
      <ul>
        {lines.map((line) => (
          <li key={line.id}>{describeFact(line.fact, units)}</li>
        ))}
      </ul>
    </div>
  )
}
