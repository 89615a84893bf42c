/**
 * Comma, semicolon and tab separated text (RFC 4180) to records, each with the line it starts on.
 *
 * Written here, not taken from a library, for two things an import owes its user: the true line of every record,
 * and the rest of the file after a broken quotation mark. Its answers are compared with csv-parse in the tests.
 */
import type { Problem } from './problems'

/** `line` is where the record starts, 1 for the first; `lines` how many lines it spans. */
export type CsvRecord = { line: number; lines: number; cells: string[] }
export type CsvText = { delimiter: string; records: CsvRecord[]; problems: Problem[] }

const DELIMITERS = [',', ';', '\t'] as const
/** How much of the beginning decides on the delimiter. */
const SAMPLE_CHARS = 65_536
const SAMPLE_RECORDS = 50
const QUOTE = 34
const LF = 10
const CR = 13

/** Reads a whole text. A first line "sep=;" names the delimiter; otherwise the beginning of the text shows it. */
export function readCsv(text: string): CsvText {
  const named = /^sep=(.)\r?\n/i.exec(text)
  const start = named ? named[0].length : 0
  const delimiter = named?.[1] ?? detectDelimiter(text)
  const { records, problems } = scan(text, delimiter, start, named ? 2 : 1)
  return { delimiter, records, problems }
}

/**
 * The delimiter under which the beginning of the text falls into the most even columns; a comma where the text has
 * one column only. Even rows count before many columns: "12,5;3,4" below "flow;level" is a semicolon's file.
 */
function detectDelimiter(text: string): string {
  const cut = text.length > SAMPLE_CHARS ? text.lastIndexOf('\n', SAMPLE_CHARS) + 1 : text.length
  const sample = text.slice(0, cut || SAMPLE_CHARS)
  let best = { delimiter: ',', share: 0, width: 1 }
  for (const delimiter of DELIMITERS) {
    const widths = scan(sample, delimiter, 0, 1)
      .records.slice(0, SAMPLE_RECORDS)
      .map((record) => record.cells.length)
    const width = commonest(widths.filter((w) => w > 1))
    if (width === null) continue
    const share = widths.filter((w) => w === width).length / widths.length
    if (share > best.share || (share === best.share && width > best.width)) best = { delimiter, share, width }
  }
  return best.delimiter
}

function commonest(values: readonly number[]): number | null {
  const counts = new Map<number, number>()
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1)
  let best: number | null = null
  for (const [value, count] of counts) if (best === null || count > (counts.get(best) ?? 0)) best = value
  return best
}

type Quoted = { value: string; next: number; fault: string | null }

/** Blank lines are left out; a record with a broken quotation is a problem, and reading goes on with the next line. */
function scan(
  text: string,
  delimiter: string,
  from: number,
  firstLine: number,
): { records: CsvRecord[]; problems: Problem[] } {
  const records: CsvRecord[] = []
  const problems: Problem[] = []
  const separator = delimiter.charCodeAt(0)
  let at = text.charCodeAt(from) === 0xfeff ? from + 1 : from
  let line = firstLine
  while (at < text.length) {
    const start = at
    const record = scanRecord(text, separator, at)
    at = record.next
    if (record.fault !== null) {
      const end = lineEnd(text, start)
      problems.push({
        row: line,
        column: '',
        value: text.slice(start, Math.min(end, start + 60)),
        message: record.fault,
      })
      at = afterLine(text, end)
      line += 1
      continue
    }
    if (record.cells.length > 1 || record.cells[0] !== '') {
      records.push({ line, lines: record.breaks + 1, cells: record.cells })
    }
    line += record.breaks + 1
  }
  return { records, problems }
}

function scanRecord(
  text: string,
  separator: number,
  from: number,
): { cells: string[]; next: number; breaks: number; fault: string | null } {
  const cells: string[] = []
  let at = from
  let breaks = 0
  for (;;) {
    if (text.charCodeAt(at) === QUOTE) {
      const quoted = scanQuoted(text, at, separator)
      if (quoted.fault !== null) return { cells, next: quoted.next, breaks, fault: quoted.fault }
      breaks += lineBreaks(quoted.value)
      cells.push(quoted.value)
      at = quoted.next
    } else {
      const end = cellEnd(text, at, separator)
      cells.push(text.slice(at, end))
      at = end
    }
    if (at < text.length && text.charCodeAt(at) === separator) {
      at += 1
      continue
    }
    return { cells, next: afterLine(text, at), breaks, fault: null }
  }
}

/** A quotation mark inside a cell that does not begin with one is only a character: 2' 4" needs no quotes. */
function cellEnd(text: string, from: number, separator: number): number {
  let at = from
  for (; at < text.length; at++) {
    const code = text.charCodeAt(at)
    if (code === separator || code === LF || code === CR) break
  }
  return at
}

function scanQuoted(text: string, from: number, separator: number): Quoted {
  let value = ''
  let at = from + 1
  for (;;) {
    const close = text.indexOf('"', at)
    if (close < 0)
      return { value, next: text.length, fault: 'A quotation mark opens here and is never closed.' }
    value += text.slice(at, close)
    const after = text.charCodeAt(close + 1)
    if (after === QUOTE) {
      value += '"'
      at = close + 2
      continue
    }
    if (close + 1 >= text.length || after === separator || after === LF || after === CR) {
      return { value, next: close + 1, fault: null }
    }
    const fault =
      'A quotation mark is followed by more text. Quotation marks inside a quoted cell are written twice.'
    return { value, next: close + 1, fault }
  }
}

function lineBreaks(value: string): number {
  let count = 0
  for (let i = 0; i < value.length; i++) {
    const code = value.charCodeAt(i)
    if (code === LF || (code === CR && value.charCodeAt(i + 1) !== LF)) count += 1
  }
  return count
}

function lineEnd(text: string, from: number): number {
  let at = from
  while (at < text.length && text.charCodeAt(at) !== LF && text.charCodeAt(at) !== CR) at += 1
  return at
}

function afterLine(text: string, end: number): number {
  return text.charCodeAt(end) === CR && text.charCodeAt(end + 1) === LF ? end + 2 : end + 1
}
