/** Values as cells of the plain files, so that reading them back gives the same values and the same typed text. */
import type { StoredQuantity } from '@/lib/domain/logbook/kinds'
import {
  dimensionOf,
  formatNumberPlain,
  parseQuantity,
  toSi,
  type UnitId,
  unitSymbol,
} from '@/lib/domain/quantity'
import { type Column, columnNamed, headingWith, type TableKind } from './columns'
import { guarded } from './guard'

/** Heading to cell; a heading that is missing is a blank cell. */
export type CellRow = Record<string, string>
type System = 'us' | 'metric'

/** A column by its name; one that the table of columns lacks is a slip of ours. */
export function known(kind: TableKind, name: string): Column {
  const column = columnNamed(kind, name)
  if (!column) throw new RangeError(`${kind} has no column ${name}`)
  return column
}

/** The unit in which a measured column is written. */
export function unitOf(column: Column, system: System): UnitId {
  const unit = column.units?.[system] ?? column.plainUnit
  if (unit === undefined) throw new RangeError(`${column.name} has no unit`)
  return unit
}

/** The heading of a column in a system of units. */
export function headingOf(kind: TableKind, name: string, system: System): string {
  const column = known(kind, name)
  return column.reads === 'quantity' ? headingWith(column, unitOf(column, system)) : name
}

export function textCell(text: string | null | undefined): string {
  return text === null || text === undefined ? '' : guarded(text)
}

/**
 * A quantity in a column of that unit. What was typed stays where it still says this value: as a bare number in the
 * column's own unit, else with the unit it names. Otherwise the value is written in the column's unit.
 */
export function quantityCell({ si, typed }: StoredQuantity, unit: UnitId): string {
  const bare = /^-?\d+(?:\.\d+)?/.exec(typed)?.[0]
  const own = `${bare} ${unitSymbol(unit)}`.trim()
  if (bare !== undefined && (typed === own || typed === bare) && toSi(Number(bare), unit) === si) return bare
  if (!typed.includes(';') && saysItself(typed, si, unit)) return guarded(typed)
  return formatNumberPlain(si, unit)
}

/** Whether a typed text, unit and all, is read back as exactly this value. */
function saysItself(typed: string, si: number, unit: UnitId): boolean {
  const min = Number.NEGATIVE_INFINITY
  const reading = parseQuantity(typed, { dimension: dimensionOf(unit), unit: null, locale: 'en', min })
  return reading.kind === 'value' && reading.quantity.si === si && reading.quantity.typed === typed
}
