/**
 * A whole table pasted from a lab sheet, to rows: from a spreadsheet (tabs), a file (commas, semicolons), or text in columns
 * (two or more spaces, or dots). Each row comes back read, or asked about, or with what is wrong; none is dropped in silence.
 */
import { matchAnalyte } from './analytes'
import { readCell } from './lab-text'
import { type ReadOptions, type ResultReading, type RowText, readResult } from './results'
import { readUnit } from './units'

export type PastedRow = { line: number; text: string; row: RowText; reading: ResultReading }

export type Pasted = {
  rows: readonly PastedRow[]
  /** Lines without a result in them (titles, addresses, blank lines), kept to be shown. */
  skipped: readonly { line: number; text: string }[]
  /** The columns found in a heading line, or null where there was none. */
  headings: Partial<Record<keyof RowText, number>> | null
}

const HEADINGS: readonly [keyof RowText, RegExp][] = [
  [
    'analyte',
    /^(?:analyte|parameter|test|test name|contaminant|substance|compound|characteristic(?: ?name)?|determinand|analysis|component)s?$/i,
  ],
  [
    'result',
    /^(?:results?|value|result value|concentration|your (?:result|level|water)|level|finding|amount|measured)$/i,
  ],
  ['unit', /^(?:units?|uom|unit of measure|result units?)$/i],
  [
    'reportingLimit',
    /^(?:rl|mrl|pql|loq|reporting limit|report(?:ing)? level|reporting ?limit \(rl\)|rep\.? limit|quantitation limit|min(?:imum)?\.? (?:reporting|detection) (?:limit|level)|detection limit|det\.? limit|limit of quantification|lod|mdl|dl)$/i,
  ],
  ['qualifier', /^(?:qualifiers?|flags?|qual\.?|q|notes?|remarks?|comment codes?|data flag)$/i],
  ['method', /^(?:methods?|analytical method|test method|method no\.?|reference method)$/i],
]

/** Reads pasted text. `options` as for one row; the heading line, where there is one, says what the columns are. */
export function readPasted(text: string, options: ReadOptions): Pasted {
  const lines = text.replace(/\r\n?/g, '\n').split('\n')
  const split = splitter(lines)
  const rows: PastedRow[] = []
  const skipped: { line: number; text: string }[] = []
  let headings: Pasted['headings'] = null
  lines.forEach((raw, index) => {
    if (raw.trim() === '') return
    const cells = split(raw)
    const found = headingsOf(cells)
    if (found) {
      headings = found
      return
    }
    const row = headings ? byHeadings(cells, headings) : byLooks(cells)
    if (row === null) skipped.push({ line: index + 1, text: raw })
    else rows.push({ line: index + 1, text: raw, row, reading: readResult(row, options) })
  })
  return { rows, skipped, headings }
}

/** One splitter for the whole text: tabs win, then semicolons, then commas where most lines have them, else columns of spaces. */
function splitter(lines: readonly string[]): (line: string) => string[] {
  const full = lines.filter((line) => line.trim() !== '')
  const share = (mark: string): number =>
    full.filter((line) => line.includes(mark)).length / Math.max(1, full.length)
  if (share('\t') >= 0.5) return (line) => quoted(line, '\t')
  if (share(';') >= 0.5) return (line) => quoted(line, ';')
  if (share('|') >= 0.5)
    return (line) =>
      line
        .replace(/^\||\|$/g, '')
        .split('|')
        .map((cell) => cell.trim())
  const headed = full.some((line) => headingsOf(quoted(line, ',')) !== null)
  if (headed) return (line) => quoted(line, ',')
  return (line) =>
    line
      .trim()
      .split(/\s{2,}|\.{3,}\s*|\s*[:=]\s+/)
      .map((cell) => cell.trim())
}

/** RFC 4180 cells: quotes may hold the mark, doubled quotes are one. */
function quoted(line: string, mark: string): string[] {
  const cells: string[] = []
  let cell = ''
  let inside = false
  for (let i = 0; i < line.length; i += 1) {
    const char = line[i] ?? ''
    if (char === '"' && inside && line[i + 1] === '"') {
      cell += '"'
      i += 1
    } else if (char === '"') inside = !inside
    else if (char === mark && !inside) {
      cells.push(cell.trim())
      cell = ''
    } else cell += char
  }
  return [...cells, cell.trim()]
}

/** The columns of a heading line: it names an analyte column and a result column. The first of two alike wins. */
function headingsOf(cells: readonly string[]): Pasted['headings'] {
  const found: Partial<Record<keyof RowText, number>> = {}
  cells.forEach((cell, index) => {
    const tidy = cell.replace(/[*:]/g, '').trim()
    const hit = HEADINGS.find(([column, pattern]) => found[column] === undefined && pattern.test(tidy))
    if (hit) found[hit[0]] = index
  })
  return found.analyte !== undefined && found.result !== undefined ? found : null
}

function byHeadings(cells: readonly string[], headings: NonNullable<Pasted['headings']>): RowText | null {
  const cell = (column: keyof RowText): string => {
    const index = headings[column]
    return index === undefined ? '' : (cells[index] ?? '')
  }
  if (cell('analyte') === '' || cells.length < 2) return null
  return {
    analyte: cell('analyte'),
    result: cell('result'),
    unit: cell('unit'),
    reportingLimit: cell('reportingLimit'),
    qualifier: cell('qualifier'),
    method: cell('method'),
  }
}

/**
 * Without headings: the first cell must be a name known (or doubtful) here and the next a result; a unit may follow. Further
 * numbers (limits, other columns) are not guessed at. A line of words with single spaces is tried as "name result unit".
 */
function byLooks(cells: readonly string[]): RowText | null {
  const [name = '', ...others] = cells.length > 1 ? cells : splitWords(cells[0] ?? '')
  if (matchAnalyte(name).kind === 'unknown') return null
  const [result = '', second = ''] = others.filter((cell) => cell !== '')
  const reading = readCell(result, 'en')
  if (result === '' || (reading.kind === 'problem' && !/\d/.test(result))) return null
  const unit = readUnit(second).kind === 'unit' ? second : ''
  return { analyte: name, result, unit, reportingLimit: '', qualifier: '', method: '' }
}

/** "Nitrate as N 1.2 mg/L": the longest beginning that is a name. */
function splitWords(line: string): string[] {
  const words = line.trim().split(/\s+/)
  for (let taken = words.length - 1; taken >= 1; taken -= 1) {
    const name = words.slice(0, taken).join(' ').replace(/[:=]$/, '')
    if (matchAnalyte(name).kind === 'unknown') continue
    const rest = words.slice(taken).join(' ')
    return readCell(rest, 'en').kind === 'problem' ? [name, ...words.slice(taken)] : [name, rest]
  }
  return [line]
}
