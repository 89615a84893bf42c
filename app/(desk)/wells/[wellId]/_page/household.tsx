import { MatterList } from '@/app/(desk)/from-owners/matter-list'
import type { Standing } from '@/lib/domain/logbook/appraise'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import { paths } from '@/lib/paths'

type Props = {
  well: { id: string; label: string; name: string | null }
  standing: Standing | null
  units: UnitSystem
}

/** What the household of this well asked for or sent in and is not settled; nothing where nothing is. */
export function Household({ well, standing, units }: Props) {
  const matters = standing?.matters ?? []
  if (matters.length === 0) return null
  const rows = matters.map((matter) => ({
    wellId: well.id,
    label: well.label,
    wellName: well.name,
    ownerName: null,
    matter,
  }))
  return (
    <section className="stack" aria-labelledby="household">
      <h2 id="household">From the household</h2>
      <MatterList rows={rows} units={units} back={paths.well(well.id)} named={false} />
    </section>
  )
}
