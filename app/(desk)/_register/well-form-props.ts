import type { Viewer } from '@/lib/access/viewer'
import { PUMP_QUANTITIES, unitHint, WELL_QUANTITIES } from '@/lib/forms/well-quantities'
import type { Db } from '@/lib/records/db'
import { dueFacets } from '@/lib/records/due-list'
import { models } from '@/lib/records/models'
import type { Measured, Models } from './pump-fields'

/** What the form of a well needs besides the well itself: units of this reader, known owners and areas. */
export function wellFormProps(
  db: Db,
  viewer: Viewer,
): { measured: Measured[]; owners: string[]; areas: string[]; models: Models } {
  const { owners, areas } = dueFacets(db, viewer)
  const { pumps, cartridges } = models(db, viewer)
  const inUse = (rows: readonly { name: string; retired: boolean }[]) =>
    rows.flatMap(({ name, retired }) => (retired ? [] : [name]))
  return {
    models: { pumps: inUse(pumps), cartridges: inUse(cartridges) },
    measured: Object.entries(WELL_QUANTITIES).map(([name, { use, label, hint }]) => ({
      name,
      label,
      hint,
      unit: unitHint(use, viewer.units),
      of: PUMP_QUANTITIES.some((known) => known === name) ? 'pump' : 'well',
    })),
    owners: owners.map((owner) => owner.name),
    areas,
  }
}
