import { MatterList } from '@/app/(desk)/from-owners/matter-list'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import { paths } from '@/lib/paths'
import type { MatterRow } from '@/lib/records/matters'

type Props = { wellId: string; rows: readonly MatterRow[]; units: UnitSystem }

/** What the household of this well asked for or sent in and is not settled; nothing where nothing is. */
export function Household({ wellId, rows, units }: Props) {
  if (rows.length === 0) return null
  return (
    <section className="stack" aria-labelledby="household">
      <h2 id="household">From the household</h2>
      <MatterList rows={rows} units={units} back={paths.well(wellId)} named={false} />
    </section>
  )
}
