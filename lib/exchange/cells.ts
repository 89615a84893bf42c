/** Reads the cells of one table by field, and lists every problem with its row, column and value. */
import type { StoredQuantity } from '@/lib/domain/logbook/kinds'
import {
  type Day,
  type Dimension,
  dimensionOf,
  findUnit,
  isDay,
  isRealDate,
  type NumberLocale,
  parseDayTime,
  parseQuantity,
  parseTime,
  type QuantityReading,
  toSi,
  type UnitId,
  unitSymbol,
} from '@/lib/domain/quantity'
import type { TableKind } from './columns'
import { unguarded } from './guard'
import { type Answers, type Field, fieldOf, type Mapping } from './mapping'
import type { Problem } from './problems'
import { localeOf } from './questions'
import type { Table, TableRow } from './table'

type Place = { index: number; heading: string; field: Field }
type Cell = { text: string; place: Place; isNumber: boolean }

const BLANK = /^(?:[-–—?]+|n\.?\/?a\.?|unknown|not known)?$/i
const PLAIN_NUMBER = /^\d+(?:\.\d+)?$/

/** One row at a time: call `at`, read fields, and see whether the row had problems. A blank field is null. */
export class Cells {
  readonly problems: Problem[] = []
  private readonly places = new Map<string, Place[]>()
  private readonly kept: { index: number; heading: string }[] = []
  private readonly locale: NumberLocale
  private row: TableRow = { line: 0, cells: [], numbers: null }
  private faults = 0

  constructor(table: Table, kind: TableKind, mapping: Mapping, answers: Answers) {
    this.locale = localeOf(answers, table)
    table.header.forEach((heading, index) => {
      const use = mapping[index] ?? 'keep'
      if (use === 'keep') this.kept.push({ index, heading })
      if (typeof use === 'string') return
      const field = fieldOf(use, kind)
      if (!field) throw new RangeError(`"${use.field}" is no field of ${kind}`)
      this.places.set(use.field, [...(this.places.get(use.field) ?? []), { index, heading, field }])
    })
  }

  /** Moves on to a row. */
  at(row: TableRow): void {
    this.row = row
    this.faults = 0
  }

  get line(): number {
    return this.row.line
  }

  /** Whether something in the present row could not be read. */
  get faulty(): boolean {
    return this.faults > 0
  }

  /** The field names that the mapping has. */
  get fields(): string[] {
    return [...this.places.keys()]
  }

  /** Adds a problem of the present row, at the column of a field or at the row as a whole. */
  complain(field: string | null, message: string): void {
    const place = field === null ? undefined : this.places.get(field)?.[0]
    const value = place ? this.raw(place.index) : ''
    this.faults += 1
    this.problems.push({ row: this.row.line, column: place?.heading ?? field ?? '', value, message })
  }

  /** A text, trimmed; null where it is blank. A text that is too long is a problem, never cut. */
  text(field: string): string | null {
    const cell = this.cell(field)
    if (!cell) return null
    const max = cell.place.field.column.max ?? 4000
    if (cell.text.length > max) return this.fault(cell, `This is longer than ${max} characters: shorten it.`)
    return cell.text
  }

  /** A text that the row cannot do without. */
  neededText(field: string): string | null {
    const text = this.text(field)
    if (text === null && !this.faulty) this.complain(field, 'This must not be blank.')
    return text
  }

  /** A day with its time of day, null where the time is not given. */
  dayTime(field: string): { day: Day; time: string | null } | null {
    const cell = this.cell(field)
    if (!cell || BLANK.test(cell.text)) return null
    if (isDay(cell.text)) return { day: cell.text, time: null }
    if (cell.isNumber)
      return this.fault(cell, `"${cell.text}" is a plain number: give the column a date format in the sheet`)
    const reading = parseDayTime(cell.text, cell.place.field.use.dateOrder ?? null)
    return reading.ok ? { day: reading.day, time: reading.time } : this.fault(cell, reading.message)
  }

  day(field: string): Day | null {
    return this.dayTime(field)?.day ?? null
  }

  time(field: string): string | null {
    const cell = this.cell(field)
    if (!cell || BLANK.test(cell.text)) return null
    const reading = parseTime(cell.text)
    return reading.ok ? reading.time : this.fault(cell, reading.message)
  }

  /** MM-DD, also out of a full date. */
  monthDay(field: string): string | null {
    const cell = this.cell(field)
    if (!cell || BLANK.test(cell.text)) return null
    const match = /^(?:\d{4}-)?(\d{2})-(\d{2})$/.exec(cell.text)
    if (match && isRealDate(2024, Number(match[1]), Number(match[2]))) return `${match[1]}-${match[2]}`
    return this.fault(cell, `"${cell.text}" is no day of the year: write it like 11-15 for 15 November`)
  }

  /** A bare number within the bounds of its column: a coordinate. */
  number(field: string): number | null {
    const quantity = this.quantity(field, 'ratio')
    return quantity === null ? null : quantity.si
  }

  /** Whole months; "2 years" is 24. */
  months(field: string): { months: number; typed: string } | null {
    const cell = this.cell(field)
    if (!cell || BLANK.test(cell.text)) return null
    const match = /^(\d{1,4})(?:\.0+)? ?(?:(m(?:o|onths?|os?)?\.?)|(y(?:ears?|rs?)?\.?))?$/i.exec(cell.text)
    const months = Number(match?.[1] ?? '0') * (match?.[3] ? 12 : 1)
    if (months >= 1 && months <= 1200) return { months, typed: cell.text }
    return this.fault(cell, `"${cell.text}" is no number of months: write a whole number from 1 to 1200`)
  }

  /**
   * A measured quantity with what was typed. The unit is the cell's own, else its column's, else that of the column
   * named to hold units. `dimension` is for columns that can hold more than one.
   */
  quantity(field: string, dimension?: Dimension): StoredQuantity | null {
    const cell = this.cell(field)
    return cell ? this.quantityOf(cell, cell.text, dimension) : null
  }

  /** Several quantities in one cell, separated by semicolons. */
  quantities(field: string): StoredQuantity[] {
    const cell = this.cell(field)
    if (!cell) return []
    return cell.text.split(';').flatMap((text) => this.quantityOf(cell, text.trim()) ?? [])
  }

  /** The words of a cell, separated by semicolons. */
  list(field: string): string[] {
    return (this.text(field) ?? '').split(';').flatMap((text) => text.trim() || [])
  }

  /** The columns that are kept as text, and are not blank, in the order of the table. */
  keptTexts(): { heading: string; text: string }[] {
    return this.kept.flatMap(({ index, heading }) => {
      const text = this.raw(index)
      return text === '' ? [] : [{ heading, text }]
    })
  }

  /** The text of a field as it stands, '' where it is blank or there is no such column. */
  typed(field: string): string {
    return this.cell(field, 'quietly')?.text ?? ''
  }

  private quantityOf(cell: Cell, text: string, dimension?: Dimension): StoredQuantity | null {
    const { column } = cell.place.field
    const wanted = dimension ?? column.dimension ?? 'ratio'
    const unit = this.unitOf(cell, wanted)
    if (unit === 'fault') return null
    if (unit !== null && PLAIN_NUMBER.test(text) && (cell.isNumber || this.locale === 'en')) {
      const si = toSi(Number(text), unit)
      if (si >= (column.min ?? 0) && si <= (column.most ?? Number.POSITIVE_INFINITY))
        return { si, typed: withUnit(text, unit) }
    }
    const reading = parseQuantity(text, {
      dimension: wanted,
      unit,
      locale: cell.isNumber ? 'en' : this.locale,
      min: column.min ?? 0,
      max: column.most,
    })
    return this.stored(cell, reading)
  }

  private stored(cell: Cell, reading: QuantityReading): StoredQuantity | null {
    if (reading.kind === 'blank') return null
    if (reading.kind === 'problem') return this.fault(cell, reading.message)
    const { si, typed, unit } = reading.quantity
    return { si, typed: reading.assumedUnit ? withUnit(typed, unit) : typed }
  }

  /** The unit of the numbers in a cell's column, for this row; null where each cell has to bring its own. */
  private unitOf(cell: Cell, dimension: Dimension): UnitId | null | 'fault' {
    const { use, column } = cell.place.field
    const source = use.unit ?? column.plainUnit ?? (dimension === 'ratio' ? '1' : null)
    if (source === null) return null
    if (typeof source === 'string') return dimensionOf(source) === dimension ? source : null
    const text = this.raw(source.fromColumn)
    if (text === '') return null
    const unit = findUnit(text, dimension)
    if (unit !== null) return unit
    this.fault(cell, `its unit "${text}" is not understood here`)
    return 'fault'
  }

  /** The first filled cell of a field; two that are filled are a problem. */
  private cell(field: string, how: 'aloud' | 'quietly' = 'aloud'): Cell | null {
    let found: Cell | null = null
    for (const place of this.places.get(field) ?? NONE) {
      const text = this.raw(place.index)
      if (text === '') continue
      if (found) {
        if (how === 'aloud')
          this.fault(
            found,
            `"${found.place.heading}" and "${place.heading}" are both filled: leave one blank.`,
          )
        return null
      }
      found = { text, place, isNumber: this.row.numbers?.has(place.index) ?? false }
    }
    return found
  }

  private raw(index: number): string {
    return unguarded(this.row.cells[index] ?? '').trim()
  }

  private fault(cell: Cell, message: string): null {
    this.faults += 1
    this.problems.push({ row: this.row.line, column: cell.place.heading, value: cell.text, message })
    return null
  }
}

const NONE: readonly Place[] = []

const withUnit = (text: string, unit: UnitId) => `${text} ${unitSymbol(unit)}`.trim()
