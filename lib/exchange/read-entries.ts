import { factSchema } from '@/lib/domain/logbook/kinds'
import { Cells } from './cells'
import { type Drafts, Labels, noDrafts } from './drafts'
import type { Answers, Mapping } from './mapping'
import { visitOf } from './read-visits'
import type { Table } from './table'

/**
 * Reads the file of entries for which the other files have no columns (drawdown and step tests, inspections, parts
 * fitted): well, day and the entry itself as JSON, in the shape of its kind.
 */
export function readEntries(table: Table, mapping: Mapping, answers: Answers): Drafts {
  const drafts = noDrafts()
  const cells = new Cells(table, 'entries', mapping, answers)
  const labels = new Labels()
  for (const row of table.rows) {
    cells.at(row)
    const label = cells.neededText('well')
    if (label !== null) labels.add(label)
    const visit = visitOf(cells)
    const json = cells.neededText('entry')
    const fact = json === null ? null : factOf(cells, json)
    if (label === null || visit === null || fact === null || cells.faulty) continue
    drafts.entries.push({ wellLabel: label, row: row.line, ...visit, fact })
  }
  return { ...drafts, labels: labels.list, problems: cells.problems }
}

function factOf(cells: Cells, json: string) {
  const parsed = factSchema.safeParse(fromJson(json))
  if (parsed.success) return parsed.data
  const issue = parsed.error.issues[0]
  cells.complain('entry', `This is no entry: ${issue?.path.join('.') ?? ''} ${issue?.message ?? ''}`.trim())
  return null
}

/** Undefined, which no entry is, for text that is no JSON. */
function fromJson(json: string): unknown {
  try {
    return JSON.parse(json)
  } catch (error) {
    if (error instanceof SyntaxError) return undefined
    throw error
  }
}
