/** One door to the readers of the plain files. */
import type { TableKind } from './columns'
import type { Drafts } from './drafts'
import type { Answers, Mapping } from './mapping'
import { readDuties } from './read-duties'
import { readEntries } from './read-entries'
import { readRecovery } from './read-recovery'
import { readSamples } from './read-samples'
import { readVisits } from './read-visits'
import { readWells } from './read-wells'
import type { Table } from './table'

const READERS: Readonly<Record<TableKind, (table: Table, mapping: Mapping, answers: Answers) => Drafts>> = {
  wells: readWells,
  duties: readDuties,
  visits: readVisits,
  recovery: readRecovery,
  samples: readSamples,
  entries: readEntries,
}

/**
 * What a table says, with every problem: those of the table itself first. The mapping must leave no question open
 * (see ./questions); one that names a field unknown for the kind throws RangeError.
 */
export function readDrafts(table: Table, kind: TableKind, mapping: Mapping, answers: Answers): Drafts {
  const drafts = READERS[kind](table, mapping, answers)
  const problems = [...table.problems, ...drafts.problems].sort((a, b) => (a.row ?? 0) - (b.row ?? 0))
  return { ...drafts, problems }
}
