import type { Fact } from '@/lib/domain/logbook/kinds'
import { keyOf } from '@/lib/records/well-fields'
import { Cells } from './cells'
import { type Drafts, type EntryFact, Labels, noDrafts } from './drafts'
import type { Answers, Mapping } from './mapping'
import { keptLines, notesOf } from './read-visits'
import type { Table } from './table'

type SampleFact = Extract<Fact, { kind: 'sample' }>
type Result = SampleFact['results'][number]
type Sample = Omit<EntryFact, 'fact'> & { fact: SampleFact; notes: Set<string>; faulty: boolean }

const RESULTS_MAX = 300

/**
 * Reads a table of results, one a row; rows with the same well, time, laboratory, number and point are one sample.
 * Results stay as they stand on the sheet ("<1", "ND", "0.50"). A sample of which one row cannot be read is left out
 * whole, so that it can never look better than it was.
 */
export function readSamples(table: Table, mapping: Mapping, answers: Answers): Drafts {
  const cells = new Cells(table, 'samples', mapping, answers)
  const labels = new Labels()
  const samples = new Map<string, Sample>()
  for (const row of table.rows) {
    cells.at(row)
    const label = cells.neededText('well')
    if (label !== null) labels.add(label)
    const head = headOf(cells)
    if (label === null || head === null) continue
    const key = JSON.stringify([keyOf(label), head.by, head.fact])
    const sample = samples.get(key) ?? {
      wellLabel: label,
      row: row.line,
      ...head,
      notes: new Set<string>(),
      faulty: false,
    }
    samples.set(key, sample)
    const result = resultOf(cells)
    if (result) sample.fact.results.push(result)
    if (sample.fact.results.length > RESULTS_MAX)
      cells.complain(null, `A sample has at most ${RESULTS_MAX} results.`)
    for (const line of keptLines(cells)) sample.notes.add(line)
    if (cells.faulty) sample.faulty = true
  }
  const entries = [...samples.values()].filter((sample) => !sample.faulty).flatMap(entriesOf)
  return { ...noDrafts(), labels: labels.list, entries, problems: cells.problems }
}

/** Everything of a row but its result. */
function headOf(cells: Cells): Pick<Sample, 'on' | 'time' | 'by' | 'fact'> | null {
  const at = cells.dayTime('sampled_at')
  const received = cells.dayTime('received_at')
  const by = cells.text('by')
  const texts = { lab: cells.text('lab'), sampleId: cells.text('sample_id'), point: cells.text('point') }
  if (at === null) {
    if (!cells.faulty) cells.complain('sampled_at', 'The day of sampling must not be blank.')
    return null
  }
  const fact: SampleFact = {
    kind: 'sample',
    sampledAt: isoOf(at),
    ...(received ? { receivedAt: isoOf(received) } : {}),
    ...(texts.lab !== null ? { lab: texts.lab } : {}),
    ...(texts.sampleId !== null ? { sampleId: texts.sampleId } : {}),
    ...(texts.point !== null ? { point: texts.point } : {}),
    results: [],
  }
  return { on: at.day, time: at.time, by, fact }
}

const isoOf = ({ day, time }: { day: string; time: string | null }) =>
  time === null ? day : `${day}T${time}`

function resultOf(cells: Cells): Result | null {
  const analyte = cells.neededText('analyte')
  const result = resultText(cells)
  if (result === null && !cells.faulty) {
    cells.complain(
      'result',
      'The result must not be blank: write what stands on the sheet, such as ND or <1.',
    )
  }
  if (analyte === null || result === null) return null
  const unit = cells.text('unit')
  const reportingLimit = cells.text('reporting_limit')
  const method = cells.text('method')
  return {
    analyte,
    result,
    ...(unit !== null ? { unit } : {}),
    ...(reportingLimit !== null ? { reportingLimit } : {}),
    ...(method !== null ? { method } : {}),
  }
}

/** A mark kept in a column of its own goes back to where a sheet has it: "<" in front, letters behind. */
function resultText(cells: Cells): string | null {
  const value = cells.text('result')
  const words = cells.text('detection')
  if (value === null) return words
  const mark = cells.text('qualifier')
  const text = mark === null ? value : /^[<>≤≥]=?$/.test(mark) ? `${mark}${value}` : `${value} ${mark}`
  return text
}

function entriesOf(sample: Sample): EntryFact[] {
  const { notes, faulty: _, ...entry } = sample
  return [entry, ...notesOf(notes).map((fact) => ({ ...entry, fact }))]
}
