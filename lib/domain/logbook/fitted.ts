import type { FittedByVisit } from '@/lib/domain/pump'
import type { CurrentFact } from './entries'

/** The lines of parts that hold, in order of time: what visits put in, and what wells took off the shelf. */
export function fittedLines(facts: readonly CurrentFact[]): FittedByVisit[] {
  return facts.flatMap(({ fact, id, on }) =>
    fact.kind === 'service-done'
      ? fact.parts.map(({ part, model, count, warrantyMonths }, line) => ({
          entryId: id,
          line,
          on,
          part,
          model: model ?? null,
          count,
          warrantyMonths: warrantyMonths ?? null,
        }))
      : [],
  )
}
