import { type EntryDraft, uuidSchema } from '@/lib/domain/logbook/kinds'
import type { Day } from '@/lib/domain/quantity/day'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import type { OwnerLine } from './correction-owner'
import { lineId } from './visit/lines'
import { ownerLine } from './visit/owner-line'
import { Reader } from './visit/reader'

type About = { kind: OwnerLine['kind']; of?: string }
type Context = { wellId: string; today: Day; by: string; system: UnitSystem }

/**
 * Reads a form that writes one line between a household and the outfit: of today, by whoever sends it. The number that the
 * form was opened with makes the line's id, so that pressing twice stores once.
 */
export function readOwnerLine(
  typed: Readonly<Record<string, string>>,
  about: About,
  { wellId, today, by, system }: Context,
): { ok: true; draft: EntryDraft } | { ok: false; errors: Record<string, string> } {
  const visitId = uuidSchema.safeParse(typed.visitId)
  if (!visitId.success)
    return { ok: false, errors: { visitId: 'This form has lost its number: open the page again' } }
  const reader = new Reader(typed, system)
  const [line] = ownerLine(reader, about)
  if (!line || Object.keys(reader.errors).length > 0) return { ok: false, errors: reader.errors }
  return {
    ok: true,
    draft: {
      id: lineId(visitId.data, line.slot),
      wellId,
      visitId: visitId.data,
      occurredOn: today,
      occurredTime: null,
      byName: by,
      supersedes: null,
      withdraws: null,
      payload: line.fact,
    },
  }
}
