import { readSupplyFacts, supplyText } from '@/lib/domain/logbook/supply-facts'
import { readVisitDays } from '@/lib/domain/place'
import { PIPE_MATERIALS, readFittings } from '@/lib/domain/pump'
import { slug } from '@/lib/domain/upkeep/keys'
import { bareWell, keyOf, type WellFields, type WellNumber } from '@/lib/records/well-fields'
import { Cells } from './cells'
import { recognise } from './columns'
import { type Drafts, type DutyDraft, Labels, noDrafts } from './drafts'
import { type Answers, DUTY_PARTS, type DutyPart, dutyField, fieldOf, type Mapping } from './mapping'
import type { Table } from './table'

/** Which column of the register each measured column of the file fills. */
export const WELL_QUANTITIES: readonly { column: string; field: WellNumber }[] = [
  { column: 'well_depth', field: 'wellDepthM' },
  { column: 'casing_bore', field: 'casingBoreM' },
  { column: 'casing_outside', field: 'casingOutsideM' },
  { column: 'pit_diameter', field: 'pitDiameterM' },
  { column: 'pit_length', field: 'pitLengthM' },
  { column: 'pit_width', field: 'pitWidthM' },
  { column: 'gravel_porosity', field: 'gravelPorosity' },
  { column: 'intake_depth', field: 'intakeDepthM' },
  { column: 'lift', field: 'liftM' },
  { column: 'altitude', field: 'altitudeM' },
  { column: 'demand', field: 'demandM3PerS' },
  { column: 'storage', field: 'storageM3' },
  { column: 'suction_bore', field: 'suctionBoreM' },
  { column: 'suction_length', field: 'suctionLengthM' },
  { column: 'outlet_depth', field: 'outletDepthM' },
  { column: 'frost_depth', field: 'frostDepthM' },
  { column: 'pump_ref_flow', field: 'pumpRefFlowM3PerS' },
  { column: 'pump_ref_head', field: 'pumpRefHeadM' },
  { column: 'pump_ref_amps', field: 'pumpRefAmps' },
  { column: 'pump_ref_volts', field: 'pumpRefVolts' },
]

export const WELL_TEXT_COLUMNS = [
  { column: 'name', field: 'name' },
  { column: 'area', field: 'area' },
  { column: 'closed_why', field: 'closedWhy' },
  { column: 'access', field: 'access' },
  { column: 'gate_code', field: 'gateCode' },
  { column: 'hazards', field: 'hazards' },
  { column: 'notes', field: 'notes' },
  { column: 'owner', field: 'ownerName' },
  { column: 'phone', field: 'ownerPhone' },
  { column: 'email', field: 'ownerEmail' },
  { column: 'pump_model', field: 'pumpModel' },
  { column: 'cartridge_model', field: 'cartridgeModel' },
  { column: 'suction_material', field: 'suctionMaterial' },
  { column: 'suction_fittings', field: 'suctionFittings' },
] as const

/**
 * Reads a table of wells, with the duties that its columns may carry. Columns without a meaning are kept in `extra`.
 * Answer  every well that has no problem; all problems of all rows. A label that comes twice is a problem.
 */
export function readWells(table: Table, mapping: Mapping, answers: Answers): Drafts {
  const drafts = noDrafts()
  const cells = new Cells(table, 'wells', mapping, answers)
  const labels = new Labels()
  const rowOfLabel = new Map<string, number>()
  const dutyColumns = dutiesOf(cells)
  for (const row of table.rows) {
    cells.at(row)
    // A row without a label is faulty; its other cells are still looked through for problems.
    const label = cells.neededText('well') ?? ''
    if (label !== '') noteLabel(cells, label, labels, rowOfLabel)
    const fields = wellOf(cells, label)
    const duties = dutyColumns.flatMap((name) => dutyOf(cells, label, name) ?? [])
    if (cells.faulty) continue
    drafts.wells.push({ fields, row: row.line })
    drafts.duties.push(...duties)
  }
  return { ...drafts, labels: labels.list, problems: cells.problems }
}

function noteLabel(cells: Cells, label: string, labels: Labels, rowOfLabel: Map<string, number>): void {
  labels.add(label)
  const first = rowOfLabel.get(keyOf(label))
  if (first === undefined) rowOfLabel.set(keyOf(label), cells.line)
  else cells.complain('well', `${label} is already on row ${first}: a well stands on one row only.`)
}

function wellOf(cells: Cells, label: string): WellFields {
  const fields = bareWell(label)
  for (const { column, field } of WELL_TEXT_COLUMNS) fields[field] = cells.text(column)
  for (const { column, field } of WELL_QUANTITIES) {
    const quantity = cells.quantity(column)
    if (!quantity) continue
    fields[field] = quantity.si
    fields.typed[field] = quantity.typed
  }
  fields.latitude = cells.number('latitude')
  fields.longitude = cells.number('longitude')
  if ((fields.latitude === null) !== (fields.longitude === null) && !cells.faulty) {
    cells.complain(
      fields.latitude === null ? 'latitude' : 'longitude',
      'A place needs both latitude and longitude.',
    )
  }
  checkSuction(cells, fields)
  fields.pumpRefOn = cells.day('pump_ref_date')
  fields.supply = supplyCell(cells)
  fields.installedOn = cells.day('installed')
  fields.retiredOn = cells.day('retired')
  fields.closedFrom = cells.monthDay('closed_from')
  fields.closedTo = cells.monthDay('closed_to')
  if ((fields.closedFrom === null) !== (fields.closedTo === null) && !cells.faulty) {
    cells.complain(
      fields.closedFrom === null ? 'closed_from' : 'closed_to',
      'A closed season needs both its ends.',
    )
  }
  fields.visitFrom = cells.time('visit_from')
  fields.visitUntil = cells.time('visit_until')
  if (fields.visitFrom !== null && fields.visitUntil !== null && fields.visitUntil <= fields.visitFrom) {
    cells.complain('visit_until', 'Work must be over after the hour from which somebody may come.')
  }
  fields.visitDays = daysCell(cells)
  if (fields.ownerName === null && (fields.ownerPhone !== null || fields.ownerEmail !== null)) {
    cells.complain('owner', 'A phone number or email address needs the name of its owner.')
  }
  for (const { heading, text } of cells.keptTexts()) fields.extra[extraName(heading)] = text
  return fields
}

/** What a pipe is made of and its fittings are words that the reckoning must know. */
function checkSuction(cells: Cells, fields: WellFields): void {
  const { suctionMaterial, suctionFittings } = fields
  const material = suctionMaterial?.toLowerCase() ?? null
  if (material !== null && !PIPE_MATERIALS.some((known) => known === material)) {
    cells.complain('suction_material', `"${suctionMaterial}" is none of ${PIPE_MATERIALS.join(', ')}.`)
  }
  fields.suctionMaterial = material
  const fittings = suctionFittings === null ? null : readFittings(suctionFittings)
  if (fittings?.kind === 'problem') cells.complain('suction_fittings', fittings.message)
}

/** Days of the week, as our own export writes them or as people do. */
function daysCell(cells: Cells): string | null {
  const reading = readVisitDays(cells.text('visit_days') ?? '')
  if (reading.ok) return reading.stored
  cells.complain('visit_days', reading.message)
  return null
}

/** What drives the pump and what is asked for, as our own export writes it. */
function supplyCell(cells: Cells): string | null {
  const given = cells.text('supply_facts')
  if (given === null) return null
  const facts = readSupplyFacts(given)
  if (facts) return supplyText(facts)
  cells.complain(
    'supply_facts',
    'This is no supply as the export writes it. Leave the cell blank, and enter it on the page Supply.',
  )
  return null
}

/** A kept column whose heading is one of ours gets another name, so that an export can tell the two apart. */
function extraName(heading: string): string {
  return recognise(heading, 'wells') ? `${heading} (kept)` : heading
}

function dutiesOf(cells: Cells): string[] {
  const names = cells.fields.flatMap((field) => fieldOf({ field }, 'wells')?.duty?.name ?? [])
  return [...new Set(names)]
}

/** The duty that a wells sheet tells of in its own columns; null where the row has nothing in them. */
function dutyOf(cells: Cells, wellLabel: string, name: string): DutyDraft | null {
  const field = (part: DutyPart) => dutyField(name, part)
  if (DUTY_PARTS.every((part) => cells.typed(field(part)) === '')) return null
  const months = cells.months(field('every_months'))
  const run = cells.quantity(field('every_hours'))
  const volume = cells.quantity(field('every'))
  return {
    wellLabel,
    row: cells.line,
    consequenceGiven: false,
    fields: {
      key: slug(name),
      name,
      consequence: 'supply',
      everyMonths: months?.months ?? null,
      everyRunS: run?.si ?? null,
      everyM3: volume?.si ?? null,
      condition: null,
      conditionLimitSi: null,
      lastDoneOn: cells.day(field('last_done')),
      typed: typedOf({ everyRunS: run?.typed, everyM3: volume?.typed }),
    },
  }
}

/** The texts that were typed, without the blanks. */
export function typedOf(texts: Record<string, string | undefined>): Record<string, string> {
  return Object.fromEntries(
    Object.entries(texts).flatMap(([field, text]) => (text === undefined ? [] : [[field, text] as const])),
  )
}
