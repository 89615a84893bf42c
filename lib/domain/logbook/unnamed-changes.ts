import type { RegisterPart } from '@/lib/domain/pump'
import type { Day } from '@/lib/domain/quantity/day'
import type { CurrentFact } from './entries'
import { CHANGES_BRUSHES, CHANGES_CARTRIDGE } from './equipment'

const CHANGED_BY: Readonly<Record<string, { event: string; duty: RegExp | null }>> = {
  pump: { event: 'pump-replaced', duty: null },
  cartridge: { event: 'cartridge-changed', duty: CHANGES_CARTRIDGE },
  brushes: { event: 'brushes-changed', duty: CHANGES_BRUSHES },
}

/**
 * Parts in place whose kind was changed after they were fitted by work that names no part: what is in place then is not
 * in the register. By the part's key, the last such day.
 */
export function unnamedChanges(
  parts: readonly RegisterPart[],
  facts: readonly CurrentFact[],
): ReadonlyMap<string, Day> {
  const found = new Map<string, Day>()
  for (const { key, kind, fittedOn, removedOn, beside } of parts) {
    const says = CHANGED_BY[kind]
    if (!says || removedOn !== null || fittedOn === null || beside) continue
    const last = facts.filter(({ fact }) => isChange(fact, says)).at(-1)
    if (last && last.on > fittedOn) found.set(key, last.on)
  }
  return found
}

function isChange(
  fact: CurrentFact['fact'],
  { event, duty }: { event: string; duty: RegExp | null },
): boolean {
  if (fact.kind === 'event') return fact.event === event
  return fact.kind === 'service-done' && duty !== null && fact.duties.some((key) => duty.test(key))
}
