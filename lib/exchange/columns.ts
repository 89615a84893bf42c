/**
 * The columns of the plain files, one table a file. The importer, the export and the command line read and write
 * by it. A heading is the name alone or, where a unit belongs to it, the name with the unit's suffix.
 */
import { type Dimension, dimensionOf, type UnitId } from '@/lib/domain/quantity'
import type { Column, TableKind } from './column-lists/column'
import { RECOVERY, VISITS } from './column-lists/readings'
import { ENTRIES, SAMPLES } from './column-lists/samples'
import { DUTIES, WELLS } from './column-lists/wells'

export { type Column, TABLE_KINDS, type TableKind } from './column-lists/column'

/** The columns of a plain file, in the order in which they are written. */
export const COLUMNS: Readonly<Record<TableKind, readonly Column[]>> = {
  wells: WELLS,
  duties: DUTIES,
  visits: VISITS,
  recovery: RECOVERY,
  samples: SAMPLES,
  entries: ENTRIES,
}

/** The column of that name in a file; undefined where there is none. */
export function columnNamed(kind: TableKind, name: string): Column | undefined {
  return COLUMNS[kind].find((column) => column.name === name)
}

/** Units as the plain files write them at the end of a heading. */
const SUFFIXES: Readonly<Record<string, UnitId>> = {
  m: 'm',
  cm: 'cm',
  mm: 'mm',
  ft: 'ft',
  in: 'in',
  l: 'L',
  gal: 'gal',
  m3: 'm3',
  ft3: 'ft3',
  l_per_min: 'L/min',
  gal_per_min: 'gal/min',
  l_per_s: 'L/s',
  m3_per_h: 'm3/h',
  l_per_day: 'L/d',
  gal_per_day: 'gal/d',
  m3_per_day: 'm3/d',
  kpa: 'kPa',
  psi: 'psi',
  bar: 'bar',
  s: 's',
  min: 'min',
  h: 'h',
  percent: '%',
}

/** A column known by its heading; `unit` is null where a unit belongs to it and the heading has none. */
export type Recognised = { column: Column; unit: UnitId | null }

/** The column that a heading names exactly, whatever its case; null for any other heading. */
export function recognise(heading: string, kind: TableKind): Recognised | null {
  const key = heading.trim().toLowerCase()
  const exact = columnNamed(kind, key)
  if (exact) return { column: exact, unit: exact.plainUnit ?? null }
  for (const column of COLUMNS[kind]) {
    if (!key.startsWith(`${column.name}_`) || (column.reads !== 'quantity' && column.reads !== 'limit'))
      continue
    const unit = SUFFIXES[key.slice(column.name.length + 1)]
    if (unit !== undefined && measures(column, dimensionOf(unit))) return { column, unit }
  }
  return null
}

const LIMITS: readonly Dimension[] = ['length', 'pressure', 'ratio', 'flow']

/** Whether a column can hold that kind of quantity. A limit is a length, pressure, share or flow, as its condition says. */
export function measures(column: Column, dimension: Dimension): boolean {
  if (column.reads === 'limit') return LIMITS.includes(dimension)
  return column.dimension === dimension
}

/** The heading of a column with a unit, as the plain files write it. */
export function headingWith(column: Column, unit: UnitId | null): string {
  if (unit === null || unit === column.plainUnit) return column.name
  const suffix = Object.keys(SUFFIXES).find((key) => SUFFIXES[key] === unit)
  if (suffix === undefined) throw new RangeError(`no heading has the unit ${unit}`)
  return `${column.name}_${suffix === 'kpa' ? 'kPa' : suffix}`
}
