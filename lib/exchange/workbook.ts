/** XLSX workbooks to plain rows of text. */
import readWorkbookFile from 'read-excel-file/node'
import { packPlain, unpackWorkbook } from './unpack'

/** A row of a sheet: its number, its cells as text, and which of them were true numbers in the sheet. */
export type SheetRow = { line: number; cells: string[]; numbers: ReadonlySet<number> | null }
export type Sheet = { name: string; rows: SheetRow[] }
export type Workbook = { kind: 'workbook'; sheets: Sheet[] } | { kind: 'refused'; message: string }

/** A number of a sheet as it is stored there, told apart from a text that looks like one. */
type NumberText = { digits: string }

/**
 * Reads every sheet. Dates become ISO text, with the time where there is one; numbers the shortest text of their
 * full precision, with a decimal point; yes/no TRUE and FALSE.
 * Answer  'refused' with a sentence for what is no workbook, is damaged, or would unpack beyond bounds (see ./unpack).
 */
export async function readWorkbook(bytes: Uint8Array): Promise<Workbook> {
  const unpacked = await unpackWorkbook(bytes)
  if (unpacked.kind === 'refused') return refused(unpacked.message)
  try {
    const parseNumber = (digits: string): NumberText => ({ digits })
    const sheets = await readWorkbookFile<NumberText>(Buffer.from(packPlain(unpacked.parts)), {
      parseNumber,
      trim: false,
    })
    return {
      kind: 'workbook',
      sheets: sheets.map(({ sheet, data }) => ({ name: sheet, rows: data.map(rowOf) })),
    }
  } catch (error) {
    // Whatever the reader stumbles over is in the file: the person who chose it can mend it, we cannot.
    const why = error instanceof Error ? error.message : String(error)
    return refused(
      `This workbook cannot be read (${why}). Open it, save it again as .xlsx or CSV, and choose that.`,
    )
  }
}

function rowOf(cells: readonly unknown[], index: number): SheetRow {
  const numbers = new Set<number>()
  const texts = cells.map((cell, column) => {
    if (isNumberText(cell)) numbers.add(column)
    return cellText(cell)
  })
  return { line: index + 1, cells: texts, numbers: numbers.size > 0 ? numbers : null }
}

function cellText(cell: unknown): string {
  if (cell === null || cell === undefined) return ''
  if (typeof cell === 'string') return cell
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE'
  if (cell instanceof Date) return dateText(cell)
  if (isNumberText(cell)) return numberText(cell.digits)
  return String(cell)
}

function isNumberText(cell: unknown): cell is NumberText {
  return typeof cell === 'object' && cell !== null && 'digits' in cell
}

/** 1.1000000000000001, as sheets store it, is 1.1; long numbers are written out. */
function numberText(digits: string): string {
  const value = Number(digits)
  if (!Number.isFinite(value)) return digits
  const text = String(value)
  return /e\+/.test(text) ? BigInt(Math.round(value)).toString() : text
}

const MINUTE_MS = 60_000

/** A sheet's dates have no zone; the reader gives them as UTC. A day before 1900 is a time of day alone. */
function dateText(date: Date): string {
  if (Number.isNaN(date.getTime())) return ''
  const minutes = new Date(Math.round(date.getTime() / MINUTE_MS) * MINUTE_MS)
  const text = minutes.toISOString()
  const time = text.slice(11, 16)
  if (minutes.getUTCFullYear() < 1900) return time
  return time === '00:00' ? text.slice(0, 10) : text.slice(0, 16)
}

const refused = (message: string): Workbook => ({ kind: 'refused', message })
