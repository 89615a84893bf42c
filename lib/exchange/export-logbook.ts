/** A well's logbook as rows of the plain files: visits, recovery, samples, and entries for all the rest. */
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import type { Fact } from '@/lib/domain/logbook/kinds'
import { slug } from '@/lib/domain/upkeep/keys'
import { type CellRow, headingOf, known, quantityCell, textCell, unitOf } from './export-cells'

type System = 'us' | 'metric'
export type LogbookRows = { visits: CellRow[]; recovery: CellRow[]; samples: CellRow[]; entries: CellRow[] }
type Head = { on: string; time: string | null; by: string | null }
/** Cells of one entry; `alone` where other entries in its row would change what it says. */
type Part = { cells: CellRow; alone: boolean; columns: readonly string[] }

/**
 * Every fact of a well in exactly one of the four files. The rows depend on what the facts say and not on their ids,
 * so that a logbook that was exported and imported is exported the same again.
 */
export function logbookRows(label: string, facts: readonly CurrentFact[], system: System): LogbookRows {
  const rows: LogbookRows = { visits: [], recovery: [], samples: [], entries: [] }
  const visits = new Map<string, { head: Head; parts: Part[] }>()
  const ordered = facts
    .map(({ on, time, byName, fact }) => ({
      head: { on, time, by: byName },
      fact,
      text: JSON.stringify(fact),
    }))
    .sort((a, b) => compareText(headKey(a.head), headKey(b.head)) || compareText(a.text, b.text))
  const taken = new Set<string>()
  for (const { head, fact, text } of ordered) {
    const part = visitPart(fact, system)
    const own = part ? null : ownRows(fact, head, system, taken)
    if (part) {
      const visit = visits.get(headKey(head)) ?? { head, parts: [] }
      visits.set(headKey(head), visit)
      visit.parts.push(part)
    } else if (own) rows[own.file].push(...own.rows.map((cells) => ({ well: textCell(label), ...cells })))
    else rows.entries.push({ ...headCells(label, head), entry: text })
  }
  for (const { head, parts } of visits.values()) {
    rows.visits.push(...packed(parts).map((cells) => ({ ...headCells(label, head), ...cells })))
  }
  return rows
}

const headKey = ({ on, time, by }: Head) => JSON.stringify([on, time ?? '', by ?? ''])

function headCells(label: string, { on, time, by }: Head): CellRow {
  return { well: textCell(label), date: on, time: time ?? '', by: textCell(by) }
}

/** As few rows as hold all parts, each column once a row, in an order that the cells alone decide. */
function packed(parts: readonly Part[]): CellRow[] {
  const rows: { cells: CellRow; columns: Set<string>; closed: boolean }[] = []
  const ordered = [...parts].sort((a, b) => compareText(JSON.stringify(a.cells), JSON.stringify(b.cells)))
  for (const { cells, alone, columns } of ordered) {
    const free = rows.find(
      (row) => !row.closed && !alone && !columns.some((column) => row.columns.has(column)),
    )
    if (!free) {
      rows.push({ cells, columns: new Set(columns), closed: alone })
      continue
    }
    free.cells = { ...free.cells, ...cells }
    for (const column of columns) free.columns.add(column)
  }
  return rows.map(({ cells }) => cells)
}

/** The cells of an entry that the visits file has columns for; null for any other. */
function visitPart(fact: Fact, system: System): Part | null {
  const part = (cells: CellRow, columns: readonly string[] = Object.keys(cells)): Part => ({
    cells,
    columns,
    alone: false,
  })
  const cell = (name: string, quantity: { si: number; typed: string } | undefined): CellRow =>
    quantity
      ? { [headingOf('visits', name, system)]: quantityCell(quantity, unitOf(known('visits', name), system)) }
      : {}
  switch (fact.kind) {
    case 'service-done':
      return fact.parts.length === 0 ? part({ done: textCell(doneText(fact)) }) : null
    case 'level-reading':
      return part(cell(fact.state === 'rest' ? 'static_level' : 'pumping_level', fact.level))
    case 'flow-reading':
      return part({ ...cell('flow', fact.flow), ...cell('pumped', fact.pumped) }, ['flow'])
    case 'meter-reading':
      return fact.explained === null ? part(cell(meterColumn(fact.meter), fact.reading)) : null
    case 'pressure-reading':
      return fact.cartridge === undefined
        ? part({ ...cell('pressure_in', fact.before), ...cell('pressure_out', fact.after) }, ['pressure'])
        : null
    case 'brush-length':
      return part({ [headingOf('visits', 'brush_length', system)]: brushText(fact.lengths, system) })
    case 'electrical-reading':
      return part({ ...cell('amps', fact.amps), ...cell('volts', fact.volts) }, ['electrical'])
    case 'event':
      return eventPart(fact, cell)
    case 'note':
      return part({ note: textCell(fact.text) })
    default:
      return null
  }
}

type EventFact = Extract<Fact, { kind: 'event' }>

/** A replaced meter takes the reading in its row for the new meter's first: nothing else may stand in that row. */
function eventPart(
  fact: EventFact,
  cell: (name: string, quantity: { si: number; typed: string } | undefined) => CellRow,
): Part | null {
  const { event, meter, oldReading, newReading } = fact
  const cells = { event: event.replaceAll('-', '_') }
  if (event !== 'meter-replaced') {
    return meter || oldReading || newReading ? null : { cells, columns: ['event'], alone: false }
  }
  if (oldReading || (meter === undefined) !== (newReading === undefined)) return null
  return {
    cells: { ...cells, ...(meter ? cell(meterColumn(meter), newReading) : {}) },
    columns: ['event'],
    alone: true,
  }
}

const meterColumn = (meter: 'hours' | 'volume') => (meter === 'hours' ? 'hour_meter' : 'volume_meter')

/** Names as written, where they still lead to the same duties; else the keys. */
function doneText({ duties, names }: Extract<Fact, { kind: 'service-done' }>): string {
  const readable = (name: string | undefined, key: string) =>
    name !== undefined && !name.includes(';') && /[\p{L}\p{N}]/u.test(name) && slug(name) === key ? name : key
  return duties.map((key, i) => readable(names[i], key)).join('; ')
}

function brushText(lengths: readonly { si: number; typed: string }[], system: System): string {
  const unit = unitOf(known('visits', 'brush_length'), system)
  return lengths.map((length) => quantityCell(length, unit)).join('; ')
}

/** Recovery tests and samples in their own files, where the rows lead back to the same entry. */
function ownRows(
  fact: Fact,
  head: Head,
  system: System,
  taken: Set<string>,
): { file: 'recovery' | 'samples'; rows: CellRow[] } | null {
  const first = (key: string) => !taken.has(key) && Boolean(taken.add(key))
  if (fact.kind === 'recovery-test') {
    if (!first(JSON.stringify(['recovery', head.on, head.time]))) return null
    return { file: 'recovery', rows: recoveryRows(fact, head, system) }
  }
  if (fact.kind !== 'sample') return null
  const { results, ...about } = fact
  const at = head.time === null ? head.on : `${head.on}T${head.time}`
  if (about.sampledAt !== at || results.some(({ result }) => result === '') || saysMore(fact)) return null
  if (!first(JSON.stringify(['sample', head.by, about]))) return null
  return { file: 'samples', rows: sampleRows(fact, head) }
}

/** What the columns of the samples file have no room for: such a sample goes to the entries file whole. */
function saysMore(fact: Extract<Fact, { kind: 'sample' }>): boolean {
  const { kind, sampledAt, receivedAt, lab, sampleId, point, results, ...more } = fact
  return (
    Object.values(more).some((value) => value !== undefined) ||
    results.some(({ analyte, result, unit, reportingLimit, method, ...rest }) =>
      Object.values(rest).some((value) => value !== undefined),
    )
  )
}

function recoveryRows(fact: Extract<Fact, { kind: 'recovery-test' }>, head: Head, system: System): CellRow[] {
  const cell = (name: string, quantity: { si: number; typed: string } | undefined): CellRow =>
    quantity
      ? {
          [headingOf('recovery', name, system)]: quantityCell(
            quantity,
            unitOf(known('recovery', name), system),
          ),
        }
      : {}
  return [...fact.readings]
    .sort((a, b) => a.elapsed.si - b.elapsed.si || a.level.si - b.level.si)
    .map(({ elapsed, level }) => ({
      date: head.on,
      time: head.time ?? '',
      by: textCell(head.by),
      ...cell('elapsed', elapsed),
      ...cell('level', level),
      ...cell('static_level', fact.static),
    }))
}

function sampleRows(fact: Extract<Fact, { kind: 'sample' }>, head: Head): CellRow[] {
  return fact.results.map((result) => ({
    sampled_at: fact.sampledAt,
    received_at: fact.receivedAt ?? '',
    lab: textCell(fact.lab),
    sample_id: textCell(fact.sampleId),
    point: textCell(fact.point),
    analyte: textCell(result.analyte),
    result: textCell(result.result),
    unit: textCell(result.unit),
    reporting_limit: textCell(result.reportingLimit),
    method: textCell(result.method),
    by: textCell(head.by),
  }))
}

const compareText = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0)
