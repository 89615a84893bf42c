/** From the bytes of a file to one table: headings, and rows with their line. */
import { FILE_BYTES_MAX, sayBytes } from '@/lib/domain/limits'
import { type CsvRecord, readCsv } from './csv'
import { columnNames, findHeaderRow } from './header-row'
import type { Problem } from './problems'
import { fileText } from './text-bytes'
import { readWorkbook, type SheetRow } from './workbook'

export type TableRow = SheetRow
export type Table = {
  /** One name a column, no two alike. */
  header: string[]
  headerLine: number
  rows: TableRow[]
  /** Rows that could not be read, and why. */
  problems: Problem[]
  /** What was taken for granted, for the person who chose the file to see. */
  notices: string[]
  /** ',', ';' or tab; null for a sheet. */
  delimiter: string | null
  sheet: string | null
}

export type TableReading =
  | { kind: 'table'; table: Table }
  /** A workbook with several filled sheets: ask, then read again with the name. */
  | { kind: 'choose-sheet'; sheets: { name: string; rows: number }[] }
  | { kind: 'refused'; message: string }

/** What the person has chosen already: a sheet, the line of the headings. */
export type TableChoice = {
  sheet?: string
  headerLine?: number
  /** For the command line, which reads files of the outfit's own and needs no guard against large ones. */
  anySize?: true
}

export const ROWS_MAX = 200_000
export const COLUMNS_MAX = 200

/**
 * Reads a CSV or XLSX file. Blank rows and repeated headings are left out; rows of the wrong width are problems.
 * Answer  'refused' with a sentence where the file is no table or beyond the limits; never throws on bad content.
 */
export async function readTable(bytes: Uint8Array, choice: TableChoice = {}): Promise<TableReading> {
  if (!choice.anySize && bytes.length > FILE_BYTES_MAX)
    return refused(`The file is larger than ${sayBytes(FILE_BYTES_MAX)}. Split it in parts.`)
  const content = fileText(bytes)
  if (content.kind === 'refused') return content
  if (content.kind === 'workbook') return readSheets(bytes, choice)
  return readTextTable(content.text, content.notices, choice)
}

/** The same for text that has been decoded already. */
export function readTextTable(text: string, notices: string[] = [], choice: TableChoice = {}): TableReading {
  if (!choice.anySize && !text.includes('"') && lineCount(text) > ROWS_MAX + 100) return tooManyRows()
  const { delimiter, records, problems } = readCsv(text)
  const reading = assemble(records, choice, 'as-the-headings')
  if (reading.kind !== 'table') return reading
  const { table } = reading
  const ragged = raggedRows(records, table.headerLine, delimiter)
  const bad = new Set(ragged.map(({ row }) => row))
  return {
    kind: 'table',
    table: {
      ...table,
      rows: table.rows.filter(({ line }) => !bad.has(line)),
      problems: [...problems, ...ragged].sort((a, b) => (a.row ?? 0) - (b.row ?? 0)),
      delimiter,
      notices,
    },
  }
}

async function readSheets(bytes: Uint8Array, choice: TableChoice): Promise<TableReading> {
  const workbook = await readWorkbook(bytes)
  if (workbook.kind === 'refused') return workbook
  const filled = workbook.sheets.filter((sheet) => sheet.rows.some(isFilled))
  const only = filled.length === 1 ? filled[0] : undefined
  const sheet = choice.sheet === undefined ? only : filled.find(({ name }) => name === choice.sheet)
  if (sheet) {
    const reading = assemble(sheet.rows, choice, 'as-the-widest-row')
    return reading.kind === 'table'
      ? { kind: 'table', table: { ...reading.table, sheet: sheet.name } }
      : reading
  }
  if (filled.length === 0) return refused('The workbook has no filled sheet.')
  return {
    kind: 'choose-sheet',
    sheets: filled.map(({ name, rows }) => ({ name, rows: rows.filter(isFilled).length })),
  }
}

type Line = { line: number; cells: string[]; numbers?: ReadonlySet<number> | null }

function assemble(
  lines: readonly Line[],
  choice: TableChoice,
  wide: 'as-the-headings' | 'as-the-widest-row',
): TableReading {
  const filled = lines.filter(isFilled)
  const chosen = filled.findIndex(({ line }) => line === choice.headerLine)
  const at = chosen >= 0 ? chosen : findHeaderRow(filled.slice(0, 100).map(({ cells }) => cells))
  const header = filled[at]
  if (!header) return refused('The file has no rows.')
  const body = filled.slice(at + 1)
  if (!choice.anySize && body.length > ROWS_MAX) return tooManyRows()
  const most = wide === 'as-the-headings' ? header.cells.length : COLUMNS_MAX + 1
  const width = body.reduce(
    (widest, { cells }) => Math.max(widest, Math.min(most, lastFilled(cells))),
    lastFilled(header.cells),
  )
  if (width > COLUMNS_MAX) return refused(`The table has ${width} columns; at most ${COLUMNS_MAX} are read.`)
  const heading = header.cells.join('\u0000')
  return {
    kind: 'table',
    table: {
      header: columnNames(header.cells, filled[at - 1]?.cells ?? null, Math.max(width, 1)),
      headerLine: header.line,
      rows: body
        .filter(({ cells }) => cells.join('\u0000') !== heading)
        .map(({ line, cells, numbers }) => ({ line, cells, numbers: numbers ?? null })),
      problems: [],
      notices: [],
      delimiter: null,
      sheet: null,
    },
  }
}

/** Rows below the headings whose cells cannot be told to columns: fewer or more than there are headings. */
function raggedRows(records: readonly CsvRecord[], headerLine: number, delimiter: string): Problem[] {
  const header = records.find(({ line }) => line === headerLine)
  if (!header) return []
  const widest = header.cells.length
  const least = lastFilled(header.cells)
  return records.flatMap(({ line, lines, cells }) => {
    if (line <= headerLine || !isFilled({ cells })) return []
    if (cells.length >= least && lastFilled(cells) <= widest) return []
    const span = lines > 1 ? ` It runs to line ${line + lines - 1}: look for a stray quotation mark.` : ''
    const message = `The row has ${plural(cells.length, 'cell')} where the headings are ${widest}.${span}`
    return [{ row: line, column: '', value: cells.join(delimiter).slice(0, 60), message }]
  })
}

function lineCount(text: string): number {
  let count = 0
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) count += 1
  return count
}

function lastFilled(cells: readonly string[]): number {
  return cells.findLastIndex((cell) => cell.trim() !== '') + 1
}

const isFilled = ({ cells }: { cells: readonly string[] }) => cells.some((cell) => cell.trim() !== '')
const plural = (n: number, word: string) => `${n} ${word}${n === 1 ? '' : 's'}`
const tooManyRows = () => refused('The table has more than 200,000 rows. Split it in parts.')
const refused = (message: string) => ({ kind: 'refused', message }) as const
