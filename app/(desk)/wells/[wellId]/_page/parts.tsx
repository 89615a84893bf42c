import Link from 'next/link'
import { OtherModels } from '@/app/ui/other-models'
import { PartTable } from '@/app/ui/part-table'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import type { Equipment } from '@/lib/domain/logbook/equipment'
import { otherModels } from '@/lib/domain/logbook/part-models'
import { unnamedChanges } from '@/lib/domain/logbook/unnamed-changes'
import type { RegisterPart } from '@/lib/domain/pump'
import type { Day } from '@/lib/domain/quantity/day'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import { paths } from '@/lib/paths'

type Props = {
  wellId: string
  parts: readonly RegisterPart[]
  facts: readonly CurrentFact[]
  equipment: Equipment
  units: UnitSystem
  today: Day
  mayEdit: boolean
}

/** What is installed in the well, by hand and by visits, each part once, and what was. */
export function Parts({ wellId, parts, facts, equipment, units, today, mayEdit }: Props) {
  const inPlace = parts.filter(({ removedOn }) => removedOn === null)
  const earlier = parts.filter(({ removedOn }) => removedOn !== null)
  const show = { parts, wellId, units, today, mayEdit, unnamed: unnamedChanges(parts, facts) }
  return (
    <section aria-labelledby="parts" className="stack">
      <div className="group-head">
        <h2 id="parts">Parts</h2>
        {mayEdit ? (
          <Link className="no-print" href={paths.newPart(wellId)} prefetch={false}>
            Add a part
          </Link>
        ) : null}
      </div>
      {parts.length === 0 ? (
        <p className="muted">
          No parts are listed yet. Those that a visit fits come here by themselves
          {mayEdit ? '; add by hand what is in the well already' : ''}.
        </p>
      ) : null}
      {inPlace.length > 0 ? <PartTable {...show} label="Parts in place" shown={inPlace} /> : null}
      <OtherModels found={otherModels(parts, equipment)} wellId={wellId} mayEdit={mayEdit} />
      {earlier.length > 0 ? (
        <details>
          <summary>Earlier parts ({earlier.length})</summary>
          {kindsOf(earlier).map(([kind, shown]) => (
            <details key={kind}>
              <summary>
                {kind} ({shown.length})
              </summary>
              <PartTable {...show} label={`Earlier parts: ${kind}`} shown={shown} />
            </details>
          ))}
        </details>
      ) : null}
    </section>
  )
}

/** Parts by kind, each in the order given. */
function kindsOf(parts: readonly RegisterPart[]): [string, RegisterPart[]][] {
  const kinds = new Map<string, RegisterPart[]>()
  for (const part of parts) kinds.set(part.kind, [...(kinds.get(part.kind) ?? []), part])
  return [...kinds]
}
