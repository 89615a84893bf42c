/** What must be asked before a table can be read: units, the order of dates, what a comma means. */
import {
  type DateOrder,
  type NumberLocale,
  parseDayTime,
  parseQuantity,
  type UnitId,
  unitsOf,
} from '@/lib/domain/quantity'
import { COLUMNS, type Column, type TableKind } from './columns'
import { unguarded } from './guard'
import { type Answers, type Field, fieldOf, type Mapping } from './mapping'
import type { Table } from './table'

export type Question =
  /** A column without which a row says nothing has not been named. */
  | { kind: 'column'; field: string; message: string }
  /** The same field twice where it can only be once; a field name that means nothing. */
  | { kind: 'mapping'; column: number; heading: string; message: string }
  | { kind: 'unit'; column: number; heading: string; samples: string[]; units: UnitId[]; message: string }
  /** `possible` are the orders in which every value of the column is a real day. */
  | {
      kind: 'date-order'
      column: number
      heading: string
      samples: string[]
      possible: DateOrder[]
      message: string
    }
  | { kind: 'number-locale'; samples: string[]; message: string }

const SAMPLES = 3

/** The questions that a mapping and its answers leave open; empty when the table can be read. */
export function openQuestions(table: Table, kind: TableKind, mapping: Mapping, answers: Answers): Question[] {
  const fields: { column: number; field: Field }[] = []
  const questions: Question[] = []
  table.header.forEach((heading, column) => {
    const use = mapping[column] ?? 'keep'
    if (typeof use === 'string') return
    const field = fieldOf(use, kind)
    if (field) fields.push({ column, field })
    else
      questions.push({ kind: 'mapping', column, heading, message: `"${use.field}" is no field of ${kind}.` })
  })
  for (const { name, title, needed } of COLUMNS[kind]) {
    if (needed && !fields.some(({ field }) => field.use.field === name)) {
      questions.push({ kind: 'column', field: name, message: `Which column is "${title}"?` })
    }
  }
  for (const { column, field } of fields) {
    const heading = table.header[column] ?? ''
    questions.push(
      ...unitQuestion(table, column, heading, field),
      ...orderQuestion(table, column, heading, field),
    )
  }
  if (answers.locale === null) questions.push(...localeQuestion(table, fields))
  return questions
}

function unitQuestion(
  table: Table,
  column: number,
  heading: string,
  { use, column: known }: Field,
): Question[] {
  if (known.reads !== 'quantity' && known.reads !== 'limit') return []
  if (use.unit !== undefined || known.plainUnit !== undefined) return []
  const samples = valuesOf(table, column, (text) => /^[-+]?[\d.,\s]+$/.test(text))
  if (samples.length === 0) return []
  const units = known.dimension ? unitsOf(known.dimension) : [...unitsOf('length'), ...unitsOf('pressure')]
  return [{ kind: 'unit', column, heading, samples, units, message: `In which unit is "${heading}"?` }]
}

const ORDERS: readonly DateOrder[] = ['ymd', 'dmy', 'mdy']

function orderQuestion(
  table: Table,
  column: number,
  heading: string,
  { use, column: known }: Field,
): Question[] {
  if ((known.reads !== 'day' && known.reads !== 'day-time') || use.dateOrder !== undefined) return []
  const isOpen = (text: string) => {
    const reading = parseDayTime(text, null)
    return !reading.ok && reading.reason === 'ambiguous'
  }
  const samples = valuesOf(table, column, isOpen)
  if (samples.length === 0) return []
  const dates = distinct(table, column).filter((text) => parseDayTime(text, null).ok || isOpen(text))
  const possible = ORDERS.filter((order) => dates.every((text) => parseDayTime(text, order).ok))
  const message = `In "${heading}", what comes first: day, month or year?`
  return [{ kind: 'date-order', column, heading, samples, possible, message }]
}

/** Asked once for the file, with values that can be read in two ways. */
function localeQuestion(table: Table, fields: readonly { column: number; field: Field }[]): Question[] {
  const samples = new Set<string>()
  for (const { column, field } of fields) {
    if (!holdsNumbers(field.column)) continue
    const doubtful = (text: string) => isTwoWays(text, table.delimiter)
    for (const text of valuesOf(table, column, doubtful, 'leave-out-numbers')) samples.add(text)
  }
  if (samples.size === 0) return []
  const message = 'Is the comma or the point the decimal mark in this file?'
  return [{ kind: 'number-locale', samples: [...samples].slice(0, SAMPLES), message }]
}

/** What a comma means where nobody has said: a file that separates its cells by commas has decimal points. */
export function localeOf(answers: Answers, table: Pick<Table, 'delimiter'>): NumberLocale {
  return answers.locale ?? (table.delimiter === ',' ? 'en' : null)
}

/** "12,5" and "1,200" in any file; "1.200" in one that does not separate its cells by commas. */
function isTwoWays(text: string, delimiter: string | null): boolean {
  const number = /[\d.,]*\d/.exec(text)?.[0] ?? ''
  if (!number.includes(',') && (delimiter === ',' || !number.includes('.'))) return false
  const locales: NumberLocale[] = delimiter === ',' ? [null, 'en'] : [null]
  return locales.some((locale) => {
    const reading = parseQuantity(number, { dimension: 'ratio', unit: '1', locale })
    return reading.kind === 'problem' && reading.code === 'which-comma'
  })
}

const holdsNumbers = (column: Column) => ['quantity', 'limit', 'number'].includes(column.reads)

/** Up to three different texts of a column that pass; cells that were true numbers in a sheet are in no doubt. */
function valuesOf(
  table: Table,
  column: number,
  passes: (text: string) => boolean,
  sure: 'leave-out-numbers' | 'all' = 'all',
): string[] {
  const found = new Set<string>()
  const seen = new Set<string>()
  for (const { cells, numbers } of table.rows) {
    const text = unguarded(cells[column] ?? '').trim()
    if (text === '' || seen.has(text)) continue
    if (sure === 'leave-out-numbers' && numbers?.has(column)) continue
    seen.add(text)
    if (passes(text)) found.add(text)
    if (found.size === SAMPLES) break
  }
  return [...found]
}

function distinct(table: Table, column: number): string[] {
  const texts = new Set<string>()
  for (const { cells } of table.rows) {
    const text = unguarded(cells[column] ?? '').trim()
    if (text !== '') texts.add(text)
  }
  return [...texts]
}
