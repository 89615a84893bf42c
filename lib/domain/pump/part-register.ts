import { addMonths, type Day } from '@/lib/domain/quantity/day'
import type { FittedByVisit, ListedPart, RegisterPart } from './fitted-parts'
import { endedBy } from './part-followers'
import { modelKey } from './stock'

/**
 * The register of a well's parts: what people wrote into it, and what visits put in, each part once.
 *
 * A part that a visit fits ends the earlier one of its kind on that day, and is itself ended by a newer one, be that of a
 * visit or written by hand. What a person wrote is never changed: a day of taking out stays as written, a part with a
 * later day stays in place, and where it cannot be told which part a new one replaces, `doubt` says so.
 *
 * Shape   `fitted` in the order of the logbook: of two on one day the later in the list is in place. `warranty` answers
 *         the months that a model of that kind is known to have, or null. A visit's part and one written by hand of the
 *         same kind, day and model (or with no model) are one part.
 * Answer  those in place first, by kind, then the newest first.
 */
export function partRegister(
  listed: readonly ListedPart[],
  fitted: readonly FittedByVisit[],
  warranty: (kind: string, model: string | null) => number | null,
): RegisterPart[] {
  const byHand = listed.map(fromHand)
  const parts = [...byHand]
  for (const line of fitted) {
    const until = warrantyEnd(line, warranty)
    const twin = byHand.find((part) => isSame(part, line))
    if (twin) {
      twin.entryId = line.entryId
      twin.model ??= line.model
      twin.warrantyUntil ??= until
    } else parts.push(fromVisit(line, until))
  }
  return endedBy(parts).sort(inPlaceFirst)
}

/** A warranty of n months from a day ends on that day n months on; what the visit says goes before what its model says. */
function warrantyEnd(
  { on, part, model, warrantyMonths }: FittedByVisit,
  warranty: (kind: string, model: string | null) => number | null,
): Day | null {
  const months = warrantyMonths ?? warranty(part, model)
  return months === null ? null : addMonths(on, months)
}

function fromHand({ id, ...part }: ListedPart): RegisterPart {
  return { ...part, key: id, listedId: id, entryId: null, count: 1, endedBy: null, doubt: null }
}

function fromVisit({ entryId, line, part, on, ...rest }: FittedByVisit, until: Day | null): RegisterPart {
  return {
    key: `${entryId} ${line}`,
    listedId: null,
    entryId,
    kind: part,
    model: rest.model,
    size: null,
    count: rest.count,
    fittedOn: on,
    warrantyUntil: until,
    removedOn: null,
    notes: null,
    beside: false,
    endedBy: null,
    doubt: null,
  }
}

function isSame(part: RegisterPart, line: FittedByVisit): boolean {
  if (part.entryId !== null || part.kind !== line.part || part.fittedOn !== line.on) return false
  const names = [part.model, part.size, [part.model, part.size].filter(Boolean).join(', ')].map(modelKey)
  const name = modelKey(line.model)
  return name === '' || names.every((each) => each === '') || names.includes(name)
}

const inPlaceFirst = (a: RegisterPart, b: RegisterPart): number =>
  compare(a.removedOn === null ? 0 : 1, b.removedOn === null ? 0 : 1) ||
  compare(a.kind, b.kind) ||
  compare(b.fittedOn ?? '', a.fittedOn ?? '') ||
  compare(a.key, b.key)

const compare = <T extends string | number>(a: T, b: T) => (a < b ? -1 : a > b ? 1 : 0)
