import type { RegisterPart } from '@/lib/domain/pump'
import type { Day } from '@/lib/domain/quantity/day'

type ShowDay = (day: Day) => string

/** Model and size of a part, or nothing where neither was written down. */
export const partNamed = ({ model, size }: Pick<RegisterPart, 'model' | 'size'>): string =>
  [model, size].filter(Boolean).join(', ')

/** The last day of a warranty in words; one that is not known is not "none". */
export function warrantySaid(until: Day | null, today: Day, show: ShowDay): string {
  if (until === null) return 'not recorded'
  return `${until < today ? 'ended' : 'until'} ${show(until)}`
}

/**
 * Why it is not sure that a part is still in place, and what to do; null where nothing speaks against it.
 * `unnamed` is the last day on which its kind was changed by work that names no part.
 */
export function doubtSaid({ doubt, kind }: RegisterPart, unnamed: Day | null, show: ShowDay): string | null {
  if (unnamed !== null) {
    return `by the last part that was named; the logbook has a change on ${show(unnamed)} that names none`
  }
  if (doubt === null) return null
  return doubt.why === 'no day'
    ? `not sure: a visit fitted one on ${show(doubt.on)}, and when this one was fitted is not written down`
    : `not sure: a visit fitted one ${kind} on ${show(doubt.on)}, and which of these it replaced is not written down`
}

/**
 * What the parts of one visit did to the register of parts, a sentence each.
 * `entryIds` are the visit's own entries.
 */
export function partsEntered(
  parts: readonly RegisterPart[],
  entryIds: ReadonlySet<string>,
  show: ShowDay,
): string[] {
  return parts
    .filter(({ entryId }) => entryId !== null && entryIds.has(entryId))
    .map((part) => {
      const name = [part.kind, partNamed(part)].filter(Boolean).join(' ')
      const warranty = part.warrantyUntil === null ? '' : `, warranty until ${show(part.warrantyUntil)}`
      return `Register of parts: ${name} entered${warranty}${whatFollowed(part, parts, show)}.`
    })
}

function whatFollowed(part: RegisterPart, parts: readonly RegisterPart[], show: ShowDay): string {
  if (part.removedOn !== null) {
    return ` as an earlier one: one of ${show(part.removedOn)} is in its place and stays as it is`
  }
  const ended = parts.filter(({ endedBy }) => endedBy === part.key)
  const doubtful = parts.filter(({ kind, doubt }) => kind === part.kind && doubt?.on === part.fittedOn)
  const days = ended.map(({ fittedOn }) => (fittedOn === null ? 'an unknown day' : show(fittedOn)))
  return [
    days.length > 0 ? `; the one of ${days.join(' and ')} is marked as taken out` : '',
    doubtful.length > 0
      ? `; whether it replaced what was written by hand cannot be told: look under Parts`
      : '',
  ].join('')
}
