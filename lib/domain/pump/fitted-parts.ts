import { addMonths, type Day } from '@/lib/domain/quantity/day'

/** A part that was put in. `warrantyMonths` null where it is not known: that is not "none". */
export type FittedPart = { part: string; model: string | null; on: Day; warrantyMonths: number | null }

export type PartInPlace = FittedPart & {
  /** Last day under warranty; null where its length is not known. */
  warrantyUntil: Day | null
  /** Days on which the same kind of part was put in before. */
  before: Day[]
}

/**
 * The newest part of each kind, with its warranty: a warranty of n months from a day ends on that day n months on.
 * Shape   in any order; of two on one day the later in the list is in place.
 */
export function partsInPlace(fitted: readonly FittedPart[]): PartInPlace[] {
  const kinds = [...new Set(fitted.map((f) => f.part))]
  return kinds.flatMap((kind) => {
    const own = fitted.filter((f) => f.part === kind)
    own.sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0))
    const last = own.at(-1)
    if (!last) return []
    const warrantyUntil = last.warrantyMonths === null ? null : addMonths(last.on, last.warrantyMonths)
    return [{ ...last, warrantyUntil, before: own.slice(0, -1).map((f) => f.on) }]
  })
}

type Registered = { kind: string; fittedOn: Day | null; removedOn: Day | null }

/**
 * The register's parts and what visits fitted, told once: of one kind the newer of the two is in place.
 * Answer  the register's parts that nobody took out, with the day on which the logbook put in a newer one of that kind
 *         (null where it did not, or where their own day is not known); and of the logbook's those that no part of the
 *         register is as new as.
 */
export function toldOnce<P extends Registered>(
  register: readonly P[],
  fitted: readonly PartInPlace[],
): { register: (P & { newerOn: Day | null })[]; logbook: PartInPlace[] } {
  const inPlace = register.filter(({ removedOn }) => removedOn === null)
  const newestOf = (kind: string) => fitted.find(({ part }) => part === kind)?.on ?? null
  return {
    register: inPlace.map((part) => {
      const newest = newestOf(part.kind)
      const newer = newest !== null && part.fittedOn !== null && newest > part.fittedOn
      return { ...part, newerOn: newer ? newest : null }
    }),
    logbook: fitted.filter(
      ({ part, on }) =>
        !inPlace.some(({ kind, fittedOn }) => kind === part && fittedOn !== null && fittedOn >= on),
    ),
  }
}
