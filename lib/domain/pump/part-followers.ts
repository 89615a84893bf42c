import type { PartDoubt, RegisterPart } from './fitted-parts'
import { modelKey } from './stock'

/**
 * Which part took whose place. A new part takes that of the earlier ones of its kind that stand in place: of the only
 * one; of all, where as many were put in; else of the one of its own model, else of the last that a visit put in. Where
 * none of these tells which, nothing is ended and each of them carries the doubt.
 * Shape   parts of one day in the order in which they were fitted. Things of kind "other" are of one kind by their model.
 */
export function endedBy(parts: readonly RegisterPart[]): RegisterPart[] {
  const all = parts.map((part) => ({ ...part }))
  const arrivals = all
    .filter((part) => part.fittedOn !== null)
    .sort((a, b) => (dayOf(a) < dayOf(b) ? -1 : dayOf(a) > dayOf(b) ? 1 : 0))
  for (const [at, next] of arrivals.entries()) {
    const earlier = arrivals.slice(0, at).filter((part) => canBeEnded(part, next))
    const undated = all.filter((part) => part.fittedOn === null && canBeEnded(part, next))
    if (next.entryId === null) {
      // A person who adds a part by hand writes down by hand what it replaces: it ends only what a visit put in.
      const last = next.beside ? undefined : earlier.findLast(({ listedId }) => listedId === null)
      if (last) end(last, next)
      continue
    }
    const ended = replacedBy(next, earlier)
    for (const part of ended) end(part, next)
    if (ended.length === 0) for (const part of earlier) doubt(part, next, 'one of several')
    for (const part of undated) doubt(part, next, 'no day')
  }
  return all
}

const dayOf = ({ fittedOn }: RegisterPart): string => fittedOn ?? ''

function canBeEnded(part: RegisterPart, next: RegisterPart): boolean {
  if (part === next || part.removedOn !== null || part.beside || part.kind !== next.kind) return false
  return part.kind !== 'other' || nameOf(part) === nameOf(next)
}

function replacedBy(next: RegisterPart, earlier: readonly RegisterPart[]): readonly RegisterPart[] {
  const inPlace = earlier.reduce((sum, { count }) => sum + count, 0)
  if (earlier.length <= 1 || next.count >= inPlace) return earlier
  const sameModel = earlier.filter((part) => nameOf(part) === nameOf(next) && nameOf(next) !== '')
  if (sameModel.length === 1) return sameModel
  const last = earlier.findLast(({ listedId }) => listedId === null)
  return last ? [last] : []
}

const nameOf = ({ model, size }: RegisterPart): string =>
  modelKey([model, size].filter((text) => text !== null).join(', '))

function end(part: RegisterPart, next: RegisterPart): void {
  part.removedOn = next.fittedOn
  part.endedBy = next.key
  part.doubt = null
}

/** The last such day is the one that counts: the part may have been any visit's. */
function doubt(part: RegisterPart, next: RegisterPart, why: PartDoubt['why']): void {
  part.doubt = { on: dayOf(next), why }
}
