import type { FittedPart } from '@/lib/domain/pump'
import type { Day } from '@/lib/domain/quantity/day'
import type { CurrentFact } from './entries'

/** One line of parts of a visit, under the entry in which it was first written. */
export type FittedLine = {
  entryId: string
  line: number
  on: Day
  part: string
  model: string | null
  count: number
}

/** The lines of parts that hold, in order of time: what wells took off the shelf. */
export function fittedLines(facts: readonly CurrentFact[]): FittedLine[] {
  return facts.flatMap(({ fact, id, on }) =>
    fact.kind === 'service-done'
      ? fact.parts.map(({ part, model, count }, line) => ({
          entryId: id,
          line,
          on,
          part,
          model: model ?? null,
          count,
        }))
      : [],
  )
}

/** Every part that the logbook says was put in, with its warranty where that was written down. */
export function fittedParts(facts: readonly CurrentFact[]): FittedPart[] {
  return facts.flatMap(({ fact, on }) =>
    fact.kind === 'service-done'
      ? fact.parts.map(({ part, model, warrantyMonths }) => ({
          part,
          model: model ?? null,
          on,
          warrantyMonths: warrantyMonths ?? null,
        }))
      : [],
  )
}
