import type { FittedPart } from '@/lib/domain/pump'
import type { CurrentFact } from './entries'

/** Every part that the logbook says was put in. The logbook does not hold warranties: they are of the register. */
export function fittedParts(facts: readonly CurrentFact[]): FittedPart[] {
  return facts.flatMap(({ fact, on }) =>
    fact.kind === 'service-done'
      ? fact.parts.map(({ part, model }) => ({ part, model: model ?? null, on, warrantyMonths: null }))
      : [],
  )
}
