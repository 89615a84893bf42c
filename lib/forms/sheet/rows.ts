import type { RowText } from '@/lib/domain/water/results'

/** One row of the sheet form. `pasted`: it stood on the sheet, so a blank result is a fact and not an untouched row. */
export type SheetRow = RowText & { pasted: boolean }

export const COLUMNS = ['analyte', 'result', 'unit', 'reportingLimit', 'qualifier', 'method'] as const
export type Column = (typeof COLUMNS)[number]

/** The longest text of each cell: what a line of the logbook holds. */
export const CELL_MAX: Readonly<Record<Column, number>> = {
  analyte: 200,
  result: 120,
  unit: 60,
  reportingLimit: 60,
  qualifier: 60,
  method: 120,
}

/** What a fresh form offers: what most private wells are tested for. Common practice, no published source. */
export const COMMON = [
  'Total coliform',
  'E. coli',
  'Nitrate',
  'Nitrite',
  'Arsenic',
  'Lead',
  'Copper',
  'Iron',
  'Manganese',
  'pH',
  'Hardness',
  'Sodium',
  'Chloride',
] as const

/** Rows without a name after the common ones, and how many more each press of "More rows" gives. */
export const SPARE_ROWS = 3
export const MORE_ROWS = 6
export const ROWS_MAX = 300

/** The name of a cell's field; rows are counted from 1. */
export const cellField = (row: number, column: Column | 'pasted') => `r${row}:${column}`

const EMPTY: SheetRow = {
  analyte: '',
  result: '',
  unit: '',
  reportingLimit: '',
  qualifier: '',
  method: '',
  pasted: false,
}

/** The rows of a fresh form: the common names, and spare rows. */
export function freshRows(): SheetRow[] {
  return [...COMMON.map((analyte) => ({ ...EMPTY, analyte })), ...spareRows(SPARE_ROWS)]
}

export function spareRows(count: number): SheetRow[] {
  return Array.from({ length: Math.max(0, count) }, () => ({ ...EMPTY }))
}

/** The rows that were sent: as many as the form says it has, blanks as blanks. A form without rows is a fresh one. */
export function rowsOf(typed: Readonly<Record<string, string>>): SheetRow[] {
  const count = Number.parseInt(typed.rows ?? '', 10)
  if (!(count >= 1)) return freshRows()
  return Array.from({ length: Math.min(count, ROWS_MAX) }, (_, i) => {
    const cell = (column: Column) => (typed[cellField(i + 1, column)] ?? '').replace(/\s+/g, ' ').trim()
    return {
      analyte: cell('analyte'),
      result: cell('result'),
      unit: cell('unit'),
      reportingLimit: cell('reportingLimit'),
      qualifier: cell('qualifier'),
      method: cell('method'),
      pasted: typed[cellField(i + 1, 'pasted')] === 'yes',
    }
  })
}

/** The fields that show these rows; a form that comes back is filled with them. */
export function fieldsOf(rows: readonly SheetRow[]): Record<string, string> {
  const fields: Record<string, string> = { rows: String(rows.length) }
  rows.forEach((row, i) => {
    for (const column of COLUMNS) fields[cellField(i + 1, column)] = row[column]
    if (row.pasted) fields[cellField(i + 1, 'pasted')] = 'yes'
  })
  return fields
}

/** Whether nothing was said in a row: no cell filled, or only a name that the form itself offers. */
export function isUntouched(row: SheetRow): boolean {
  const said = COLUMNS.filter((column) => column !== 'analyte').some((column) => row[column] !== '')
  if (said || row.pasted) return false
  return row.analyte === '' || COMMON.some((name) => name === row.analyte)
}

/** Names are not lost when a table is pasted over a fresh form: only rows in which something was typed stay. */
export const isFilled = (row: SheetRow): boolean => !isUntouched(row)

/**
 * Rows as the text of a table with headings and tabs, as lib/domain/water/paste.ts reads it back cell for cell: a cell with a
 * quotation mark in it is quoted (RFC 4180).
 */
export function tableText(rows: readonly Partial<RowText>[]): string {
  const heading = ['Analyte', 'Result', 'Unit', 'Reporting limit', 'Qualifier', 'Method'].join('\t')
  const lines = rows.map((row) => COLUMNS.map((column) => quoted(row[column] ?? '')).join('\t'))
  return [heading, ...lines].join('\n')
}

const quoted = (cell: string) => (cell.includes('"') ? `"${cell.replaceAll('"', '""')}"` : cell)
