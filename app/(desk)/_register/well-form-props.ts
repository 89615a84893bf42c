import type { Viewer } from '@/lib/access/viewer'
import { unitHint, WELL_QUANTITIES } from '@/lib/forms/well-form'
import type { Db } from '@/lib/records/db'
import { dueFacets } from '@/lib/records/due-list'
import type { Measured } from './well-fields'

/** What the form of a well needs besides the well itself: units of this reader, known owners and areas. */
export function wellFormProps(
  db: Db,
  viewer: Viewer,
): { measured: Measured[]; owners: string[]; areas: string[] } {
  const { owners, areas } = dueFacets(db, viewer)
  return {
    measured: Object.entries(WELL_QUANTITIES).map(([name, { use, label, hint }]) => ({
      name,
      label,
      hint,
      unit: unitHint(use, viewer.units),
    })),
    owners: owners.map((owner) => owner.name),
    areas,
  }
}
