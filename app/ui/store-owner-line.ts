import { notFound } from 'next/navigation'
import { now, today } from '@/lib/clock'
import type { OwnerLine } from '@/lib/forms/correction-owner'
import { type FormState, typedFields } from '@/lib/forms/form'
import { readOwnerLine } from '@/lib/forms/owner-line-form'
import { getDb } from '@/lib/records/open'
import { record } from '@/lib/records/record'
import type { Person } from './session'

/** Stores a line between household and outfit; the state of the form to show again where it is refused, else null. */
export async function storeOwnerLine(
  viewer: Person,
  wellId: string,
  about: { kind: OwnerLine['kind']; of?: string },
  form: FormData,
): Promise<FormState | null> {
  const typed = typedFields(form)
  const day = today()
  const context = { wellId, today: day, by: viewer.name, system: viewer.units }
  const reading = readOwnerLine(typed, about, context)
  if (!reading.ok) return { typed, errors: reading.errors }
  const outcome = await record(await getDb(), viewer, [reading.draft], now(), day)
  if (outcome.kind === 'no-such-well') notFound()
  if (outcome.kind === 'stored') return null
  return { typed, errors: {}, message: outcome.problems.map((problem) => problem.message).join(' ') }
}
