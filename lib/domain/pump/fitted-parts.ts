import type { Day } from '@/lib/domain/quantity/day'

/** A part as a person wrote it into the register. `beside`: others of its kind stand beside it and never take its place. */
export type ListedPart = {
  id: string
  kind: string
  model: string | null
  size: string | null
  fittedOn: Day | null
  warrantyUntil: Day | null
  removedOn: Day | null
  notes: string | null
  beside: boolean
}

/** A part that a visit put in, under the entry as first written. `warrantyMonths` null where it is not known: not "none". */
export type FittedByVisit = {
  entryId: string
  line: number
  on: Day
  part: string
  model: string | null
  count: number
  warrantyMonths: number | null
}

/** Why it cannot be told whether a part is still in place: a visit of that day fitted one of its kind. */
export type PartDoubt = { on: Day; why: 'no day' | 'one of several' }

export type RegisterPart = Omit<ListedPart, 'id' | 'beside'> & {
  /** The part's id, or its entry and line where a visit alone wrote it. */
  key: string
  count: number
  /** The id of the row that a person wrote; null where a visit alone did. */
  listedId: string | null
  /** The entry of the visit that put it in; null where none did. */
  entryId: string | null
  beside: boolean
  /** The part that took its place; null where it is in place, or where a person wrote down that it was taken out. */
  endedBy: string | null
  doubt: PartDoubt | null
}
