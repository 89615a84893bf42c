/** A first mapping for a table, from its headings. What a heading does not say is left to be asked. */
import { type Dimension, findUnit, type UnitId } from '@/lib/domain/quantity'
import { COLUMNS, type Column, measures, recognise, type TableKind } from './columns'
import { type ColumnUse, dutyField, type FieldUse, fieldOf } from './mapping'
import { openQuestions, type Question } from './questions'
import type { Table } from './table'

export type Suggestion = {
  mapping: Record<number, ColumnUse>
  /** Three values of each column, for the person to see what is in it. */
  samples: string[][]
  questions: Question[]
}

const SAMPLES = 3

/**
 * Suggests what each column is. Canonical headings are certain; others are suggested by their words, each field once;
 * a unit is taken only where the heading names one or a unit column stands beside. Dates are never given an order.
 */
export function suggestMapping(table: Table, kind: TableKind): Suggestion {
  const mapping: Record<number, ColumnUse> = {}
  const taken = new Set<string>()
  table.header.forEach((heading, column) => {
    const known = recognise(heading, kind)
    if (known) {
      mapping[column] = { field: known.column.name, ...(known.unit ? { unit: known.unit } : {}) }
      taken.add(known.column.name)
    }
  })
  table.header.forEach((heading, column) => {
    if (mapping[column] !== undefined) return
    const use = suggestUse(heading, kind, taken)
    if (use) taken.add(use.field)
    mapping[column] = use ?? 'keep'
  })
  pairUnitColumn(table, kind, mapping)
  return {
    mapping,
    samples: table.header.map((_, column) => samplesOf(table, column)),
    questions: openQuestions(table, kind, mapping, { locale: null }),
  }
}

/** Up to three different values of a column, from the top. */
export function samplesOf(table: Table, column: number): string[] {
  const found = new Set<string>()
  for (const { cells } of table.rows) {
    const text = (cells[column] ?? '').trim()
    if (text !== '') found.add(text)
    if (found.size === SAMPLES) break
  }
  return [...found]
}

function suggestUse(heading: string, kind: TableKind, taken: ReadonlySet<string>): FieldUse | null {
  const { words, unitText } = headingParts(heading)
  for (const column of COLUMNS[kind]) {
    if (taken.has(column.name) || !column.words?.test(words)) continue
    const unit = unitText === null ? null : unitFor(column, unitText)
    return { field: column.name, ...((unit ?? column.plainUnit) ? { unit: unit ?? column.plainUnit } : {}) }
  }
  return kind === 'wells' ? suggestDuty(words, unitText, taken) : null
}

const LAST_DONE =
  /^(?:last )?(.+?) (?:last )?(?:changed|replaced|cleaned|done|served|serviced|service|check(?:ed)?|change|inspected)(?: on| date)?$/
const LAST_WORD = /\blast\b|\bdate\b|\bon\b|changed|replaced|cleaned|served|serviced|checked|inspected/
const EVERY = /^(.+?) (?:interval|every|frequency)(?: in)?(?: months?)?$/

/** "Filter last changed" and "filter interval (months)" in a wells sheet are the duty "filter". */
function suggestDuty(words: string, unitText: string | null, taken: ReadonlySet<string>): FieldUse | null {
  const last = LAST_WORD.test(words) ? LAST_DONE.exec(words)?.[1] : undefined
  if (last) return free(dutyField(named(last), 'last_done'), taken)
  const every = EVERY.exec(words)?.[1]
  if (!every) return null
  if (/months?$/.test(words) || (unitText !== null && /^months?$/i.test(unitText))) {
    return free(dutyField(named(every), 'every_months'), taken)
  }
  return unitText !== null && /^(?:h|hrs?|hours?)$/i.test(unitText)
    ? free(dutyField(named(every), 'every_hours'), taken)
    : null
}

const free = (field: string, taken: ReadonlySet<string>): FieldUse | null =>
  taken.has(field) ? null : { field }
const named = (words: string) => words.charAt(0).toUpperCase() + words.slice(1)

/** "Depth to water (ft)" is the words "depth to water" and the unit text "ft"; "Flow gpm" likewise. */
export function headingParts(heading: string): { words: string; unitText: string | null } {
  const bracket = /^(.*?)[([]([^)\]]+)[)\]]\s*$/.exec(heading)
  if (bracket) return { words: plainWords(bracket[1] ?? ''), unitText: (bracket[2] ?? '').trim() }
  const words = plainWords(heading)
  const parts = words.split(' ')
  for (const n of [1, 2, 3]) {
    const tail = parts.slice(-n).join(' ')
    if (parts.length > n && findUnit(tail, null) !== null) {
      return { words: parts.slice(0, -n).join(' '), unitText: tail }
    }
  }
  return { words, unitText: null }
}

function plainWords(text: string): string {
  return text
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()
}

function unitFor(column: Column, unitText: string): UnitId | null {
  const dimensions: Dimension[] =
    column.reads === 'limit'
      ? ['length', 'pressure', 'flow', 'ratio']
      : column.dimension
        ? [column.dimension]
        : []
  for (const dimension of dimensions) {
    const unit = findUnit(unitText, dimension)
    if (unit !== null) return unit
  }
  return null
}

/** One quantity without a unit and one column "unit" whose values are units of it: they belong together. */
function pairUnitColumn(table: Table, kind: TableKind, mapping: Record<number, ColumnUse>): void {
  const unitColumn = table.header.findIndex((heading) =>
    /^(?:units?|uom|unit ?cd|unit of measure)$/i.test(heading.trim()),
  )
  if (unitColumn < 0 || mapping[unitColumn] !== 'keep') return
  const open = Object.entries(mapping).filter(([, use]) => {
    if (typeof use === 'string' || use.unit !== undefined) return false
    const column = fieldOf(use, kind)?.column
    return column?.reads === 'quantity' && column.plainUnit === undefined
  })
  const [only] = open
  if (open.length !== 1 || !only || typeof only[1] === 'string') return
  const column = fieldOf(only[1], kind)?.column
  const texts = new Set(
    table.rows.map(({ cells }) => (cells[unitColumn] ?? '').trim()).filter((text) => text !== ''),
  )
  const fits = [...texts].every((text) => {
    const unit = column?.dimension ? findUnit(text, column.dimension) : null
    return unit !== null && column !== undefined && measures(column, column.dimension ?? 'ratio')
  })
  if (texts.size === 0 || !fits) return
  mapping[Number(only[0])] = { ...only[1], unit: { fromColumn: unitColumn } }
  mapping[unitColumn] = 'skip'
}
