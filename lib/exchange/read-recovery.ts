import type { Fact, StoredQuantity } from '@/lib/domain/logbook/kinds'
import { keyOf } from '@/lib/records/well-fields'
import { Cells } from './cells'
import { type Drafts, type EntryFact, Labels, noDrafts } from './drafts'
import type { Answers, Mapping } from './mapping'
import { keptLines, notesOf, visitOf } from './read-visits'
import type { Table } from './table'

type Reading = { elapsed: StoredQuantity; level: StoredQuantity }
type Test = Omit<EntryFact, 'fact'> & {
  static: StoredQuantity | null
  readings: Reading[]
  notes: Set<string>
  faulty: boolean
}

const READINGS_MAX = 500

/**
 * Reads a table of recovery readings, one a row; rows of one well, day and time form a test, in any order. A test of
 * which one row cannot be read is left out whole: a curve with a hole is another curve.
 */
export function readRecovery(table: Table, mapping: Mapping, answers: Answers): Drafts {
  const cells = new Cells(table, 'recovery', mapping, answers)
  const labels = new Labels()
  const tests = new Map<string, Test>()
  for (const row of table.rows) {
    cells.at(row)
    const label = cells.neededText('well')
    if (label !== null) labels.add(label)
    const visit = visitOf(cells)
    if (label === null || visit === null) continue
    const key = JSON.stringify([keyOf(label), visit.on, visit.time])
    const test = tests.get(key) ?? {
      wellLabel: label,
      row: row.line,
      ...visit,
      static: null,
      readings: [],
      notes: new Set(),
      faulty: false,
    }
    tests.set(key, test)
    addReading(cells, test)
    if (cells.faulty) test.faulty = true
  }
  const entries = [...tests.values()].filter((test) => !test.faulty).flatMap(entriesOf)
  return { ...noDrafts(), labels: labels.list, entries, problems: cells.problems }
}

function addReading(cells: Cells, test: Test): void {
  const elapsed = cells.quantity('elapsed')
  const level = cells.quantity('level')
  const rest = cells.quantity('static_level')
  if (!cells.faulty && elapsed === null)
    cells.complain('elapsed', 'The time since the pump stopped must not be blank.')
  if (!cells.faulty && level === null) cells.complain('level', 'The level must not be blank.')
  if (rest && test.static && rest.si !== test.static.si) {
    cells.complain('static_level', `The level at rest is ${test.static.typed} on another row of this test.`)
  }
  test.static ??= rest
  for (const line of keptLines(cells)) test.notes.add(line)
  if (elapsed && level) test.readings.push({ elapsed, level })
  if (test.readings.length > READINGS_MAX)
    cells.complain(null, `A test has at most ${READINGS_MAX} readings.`)
}

function entriesOf(test: Test): EntryFact[] {
  const { static: rest, readings, notes, faulty: _, ...about } = test
  const ordered = [...readings].sort((a, b) => a.elapsed.si - b.elapsed.si || a.level.si - b.level.si)
  const facts: Fact[] = [{ kind: 'recovery-test', ...(rest ? { static: rest } : {}), readings: ordered }]
  facts.push(...notesOf(notes))
  return facts.map((fact) => ({ ...about, fact }))
}
