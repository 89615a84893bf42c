import Link from 'next/link'
import { OtherModels } from '@/app/ui/other-models'
import { PartTable } from '@/app/ui/part-table'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import type { Equipment } from '@/lib/domain/logbook/equipment'
import { otherModels } from '@/lib/domain/logbook/part-models'
import { unnamedChanges } from '@/lib/domain/logbook/unnamed-changes'
import type { RegisterPart } from '@/lib/domain/pump'
import type { UnitSystem } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'
import { paths } from '@/lib/paths'

type Props = {
  wellId: string
  parts: readonly RegisterPart[]
  facts: readonly CurrentFact[]
  equipment: Equipment
  today: Day
  units: UnitSystem
  mayEdit: boolean
}

/** What is in place by the register of parts, with its warranty; earlier parts stand on the page of the well. */
export function PartsInPlace({ wellId, parts, facts, equipment, today, units, mayEdit }: Props) {
  const inPlace = parts.filter(({ removedOn }) => removedOn === null)
  return (
    <section aria-labelledby="parts" className="stack-tight">
      <h2 id="parts">Parts in place</h2>
      {inPlace.length === 0 ? (
        <p className="muted">No part is in the register, and none was fitted by the logbook.</p>
      ) : (
        <PartTable
          label="Parts in place"
          wellId={wellId}
          parts={parts}
          shown={inPlace}
          unnamed={unnamedChanges(parts, facts)}
          units={units}
          today={today}
          mayEdit={mayEdit}
        />
      )}
      <OtherModels found={otherModels(parts, equipment)} wellId={wellId} mayEdit={mayEdit} />
      <p className="no-print">
        <Link href={`${paths.well(wellId)}#parts`} prefetch={false}>
          Earlier parts, and parts written by hand
        </Link>
      </p>
    </section>
  )
}
