/** Holds the wells and duties of a file against the register: what is new, what differs, what stays. */
import type { DutyFields } from '@/lib/records/duty-fields'
import type { FleetWell } from '@/lib/records/fleet-readers'
import type { WellFields } from '@/lib/records/well-fields'
import type { DutyDraft } from './drafts'

/** One value that a file states otherwise than the register. */
export type Difference = { row: number; well: string; what: string; before: string; after: string }

/** The register's values with those that the file states; a blank in the file leaves a value as it is. */
export function mergeWell(known: WellFields, stated: WellFields): WellFields {
  const given = Object.fromEntries(Object.entries(stated).filter(([, value]) => value !== null))
  return {
    ...known,
    ...given,
    label: known.label,
    typed: { ...known.typed, ...stated.typed },
    extra: { ...known.extra, ...stated.extra },
  }
}

export function mergeDuty(known: DutyFields, { fields, consequenceGiven }: DutyDraft): DutyFields {
  const given = Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== null))
  return {
    ...known,
    ...given,
    consequence: consequenceGiven ? fields.consequence : known.consequence,
    typed: { ...known.typed, ...fields.typed },
  }
}

/** What merging changes, value by value; what was typed counts with its quantity and not by itself. */
export function differences<T extends object>(
  known: T,
  merged: T,
  about: { row: number; well: string },
): Difference[] {
  return Object.entries(merged).flatMap(([what, after]) => {
    if (what === 'typed' || what === 'key') return []
    const before: unknown = Object.entries(known).find(([key]) => key === what)?.[1]
    if (same(before, after)) return []
    return [{ ...about, what, before: shown(before), after: shown(after) }]
  })
}

/** Readings of one quantity in two units differ in the last places. */
function same(a: unknown, b: unknown): boolean {
  if (typeof a === 'number' && typeof b === 'number')
    return Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b))
  return JSON.stringify(a) === JSON.stringify(b)
}

function shown(value: unknown): string {
  if (value === null || value === undefined) return ''
  return typeof value === 'object' ? JSON.stringify(value) : String(value)
}

/** The duty of that key on a well of the register. */
export function dutyOn(well: FleetWell | null, key: string): DutyFields | null {
  return well?.duties.find((duty) => duty.key === key) ?? null
}
