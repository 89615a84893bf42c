/** What the readers of the plain files hand on: what each row says, not yet held against the register. */
import type { Fact } from '@/lib/domain/logbook/kinds'
import type { Day } from '@/lib/domain/quantity'
import type { DutyFields } from '@/lib/records/duty-fields'
import { keyOf, type WellFields } from '@/lib/records/well-fields'
import type { Problem } from './problems'

export type WellDraft = { fields: WellFields; row: number }
export type DutyDraft = {
  wellLabel: string
  fields: DutyFields
  /** Whether the file said what suffers, or 'supply' was taken. */
  consequenceGiven: boolean
  row: number
}
export type EntryFact = {
  wellLabel: string
  row: number
  on: Day
  time: string | null
  by: string | null
  fact: Fact
}

export type Drafts = {
  /** Labels in the order in which they first appear, also those of rows that could not be read. */
  labels: string[]
  wells: WellDraft[]
  duties: DutyDraft[]
  entries: EntryFact[]
  /** Each of them keeps the file from being stored. */
  problems: Problem[]
  /** Each of them is only worth a look. */
  notices: Problem[]
}

export function noDrafts(): Drafts {
  return { labels: [], wells: [], duties: [], entries: [], problems: [], notices: [] }
}

/** Collects labels once each, in order; two spellings of one label are one. */
export class Labels {
  readonly list: string[] = []
  private readonly known = new Map<string, string>()

  /** Notes a label and answers how it was first spelt. */
  add(label: string): string {
    const known = this.known.get(label) ?? this.known.get(keyed(label))
    if (known !== undefined) {
      this.known.set(label, known)
      return known
    }
    this.known.set(label, label)
    this.known.set(keyed(label), label)
    this.list.push(label)
    return label
  }
}

/** Told apart from every label, so that one map serves for labels as written and for their keys. */
const keyed = (label: string) => `\u0000${keyOf(label)}`
