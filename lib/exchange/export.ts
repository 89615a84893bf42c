/** The plain files as they leave: the columns of ./columns, in the viewer's units, read back by our own import. */
import { stringify } from 'csv-stringify/sync'
import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { ConditionKind } from '@/lib/domain/upkeep/types'
import type { Db } from '@/lib/records/db'
import type { DutyFields } from '@/lib/records/duty-fields'
import { allLogbooks, allWells } from '@/lib/records/fleet-readers'
import type { WellFields } from '@/lib/records/well-fields'
import { byContent } from './about'
import { COLUMNS, headingWith, type TableKind } from './columns'
import { type CellRow, headingOf, known, quantityCell, textCell, unitOf } from './export-cells'
import { logbookRows } from './export-logbook'
import { guarded } from './guard'
import { WELL_QUANTITIES, WELL_TEXT_COLUMNS } from './read-wells'

/** Rows turned to text at a time. */
const CHUNK = 500
/** Tells spreadsheet programs that the file is UTF-8. */
const BYTE_ORDER_MARK = '\uFEFF'

/**
 * A plain file as pieces of text, made as they are asked for. What holds now is written: corrections are applied and
 * what was withdrawn is left out. Sorted by well and day. A fault while reading throws: half a file is never whole.
 * Throws  NotAllowed unless the viewer may export.
 */
export function* exportCsv(db: Db, viewer: Viewer, kind: TableKind): Generator<string> {
  demandFleet(viewer, 'export.run')
  const extra = kind === 'wells' ? extraHeadings(db, viewer) : []
  const headings = [...headingsOf(kind, viewer.units), ...extra]
  yield BYTE_ORDER_MARK + stringify([headings.map(guarded)])
  let chunk: string[][] = []
  for (const row of rowsOf(db, viewer, kind)) {
    chunk.push(headings.map((heading) => row[heading] ?? ''))
    if (chunk.length < CHUNK) continue
    yield stringify(chunk)
    chunk = []
  }
  if (chunk.length > 0) yield stringify(chunk)
}

/** Every heading of a file. A limit has a column for each of the units its conditions are told in. */
function headingsOf(kind: TableKind, system: 'us' | 'metric'): string[] {
  return COLUMNS[kind]
    .filter(({ name }) => !ONLY_READ.has(name))
    .flatMap((column) =>
      column.reads === 'limit'
        ? Object.values(limitHeadings(system))
        : [headingOf(kind, column.name, system)],
    )
}

/** Columns that other people's sheets have and ours write into the result itself. */
const ONLY_READ = new Set(['qualifier', 'detection'])

function limitHeadings(system: 'us' | 'metric'): Record<ConditionKind, string> {
  const column = known('duties', 'condition_limit')
  const heading = (kind: ConditionKind) => headingWith(column, LIMIT_UNITS[system][kind])
  return {
    brush_length: heading('brush_length'),
    pressure_drop: heading('pressure_drop'),
    flow_share: heading('flow_share'),
    flow: heading('flow'),
    lift_margin: heading('lift_margin'),
  }
}

const LIMIT_UNITS = {
  us: { brush_length: 'in', pressure_drop: 'psi', flow_share: '%', flow: 'gal/min', lift_margin: 'ft' },
  metric: { brush_length: 'mm', pressure_drop: 'kPa', flow_share: '%', flow: 'L/min', lift_margin: 'm' },
} as const

function* rowsOf(db: Db, viewer: Viewer, kind: TableKind): Generator<CellRow> {
  if (kind === 'wells') {
    for (const { fields } of allWells(db, viewer)) yield wellRow(fields, viewer.units)
    return
  }
  if (kind === 'duties') {
    for (const { fields, duties } of allWells(db, viewer)) {
      for (const duty of duties) yield dutyRow(fields.label, duty, viewer.units)
    }
    return
  }
  for (const { label, facts } of allLogbooks(db, viewer))
    yield* logbookRows(label, byContent(label, facts), viewer.units)[kind]
}

/** Columns that came with an imported file and that the register has no place for. */
function extraHeadings(db: Db, viewer: Viewer): string[] {
  const names = new Set<string>()
  for (const { fields } of allWells(db, viewer)) for (const name of Object.keys(fields.extra)) names.add(name)
  return [...names].sort()
}

function wellRow(fields: WellFields, system: 'us' | 'metric'): CellRow {
  const row: CellRow = { well: textCell(fields.label) }
  for (const { column, field } of WELL_TEXT_COLUMNS) row[column] = textCell(fields[field])
  for (const { column, field } of WELL_QUANTITIES) {
    const si = fields[field]
    if (si === null) continue
    const typed = fields.typed[field] ?? ''
    row[headingOf('wells', column, system)] = quantityCell(
      { si, typed },
      unitOf(known('wells', column), system),
    )
  }
  for (const [heading, text] of Object.entries(fields.extra)) row[heading] = textCell(text)
  return {
    ...row,
    latitude: fields.latitude === null ? '' : String(fields.latitude),
    longitude: fields.longitude === null ? '' : String(fields.longitude),
    pump_ref_date: fields.pumpRefOn ?? '',
    installed: fields.installedOn ?? '',
    closed_from: fields.closedFrom ?? '',
    closed_to: fields.closedTo ?? '',
    visit_from: fields.visitFrom ?? '',
    visit_until: fields.visitUntil ?? '',
    visit_days: fields.visitDays ?? '',
    retired: fields.retiredOn ?? '',
    supply_facts: fields.supply ?? '',
  }
}

function dutyRow(label: string, duty: DutyFields, system: 'us' | 'metric'): CellRow {
  const row: CellRow = {
    well: textCell(label),
    duty: textCell(duty.name),
    every_months: duty.everyMonths === null ? '' : String(duty.everyMonths),
    condition: duty.condition ?? '',
    last_done: duty.lastDoneOn ?? '',
    consequence: duty.consequence,
  }
  for (const { column, field } of DUTY_QUANTITIES) {
    const si = duty[field]
    if (si === null) continue
    const typed = duty.typed[field] ?? ''
    row[headingOf('duties', column, system)] = quantityCell(
      { si, typed },
      unitOf(known('duties', column), system),
    )
  }
  if (duty.condition !== null && duty.conditionLimitSi !== null) {
    const limit = { si: duty.conditionLimitSi, typed: duty.typed.conditionLimitSi ?? '' }
    row[limitHeadings(system)[duty.condition]] = quantityCell(limit, LIMIT_UNITS[system][duty.condition])
  }
  return row
}

const DUTY_QUANTITIES = [
  { column: 'every_hours', field: 'everyRunS' },
  { column: 'every', field: 'everyM3' },
] as const
