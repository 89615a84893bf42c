import type { StoredQuantity } from '@/lib/domain/logbook/kinds'
import { displayUnit, type Use, unitSymbol } from '@/lib/domain/quantity'
import type { Reader } from '@/lib/forms/visit/reader'

/** At most this many rows are looked for in a sent test: as many as the logbook takes. */
export const ROWS_MAX = 500
export const STEPS_MAX = 20

export type TimedLevel = { row: number; elapsed: StoredQuantity; level: StoredQuantity }
export type StepRow = { row: number; flow: StoredQuantity; duration: StoredQuantity; level: StoredQuantity }

/** The rows elapsed1, level1, elapsed2 … of a sent test in order of time; a half-filled one is refused at the field that is blank. */
export function timedRows(reader: Reader): TimedLevel[] {
  const rows = rowNumbers(reader, ['elapsed', 'level'], ROWS_MAX).flatMap((row) => {
    const elapsed = needed(reader, `elapsed${row}`, 'minutes', `Reading ${row} has no time: enter it`)
    const when = reader.text(`elapsed${row}`)
    const level = needed(
      reader,
      `level${row}`,
      'depth',
      `The reading${when ? ` at ${when}` : ` in row ${row}`} has no level: enter it, or strike the reading`,
    )
    return elapsed && level ? [{ row, elapsed, level }] : []
  })
  const inTime = rows.sort((a, b) => a.elapsed.si - b.elapsed.si)
  inTime.forEach(({ row, elapsed }, i) => {
    if (elapsed.si === inTime[i - 1]?.elapsed.si) {
      reader.refuse(
        `elapsed${row}`,
        `Two readings stand at ${elapsed.typed}: correct one time, or strike one`,
      )
    }
  })
  return inTime
}

/** The rows flow1, elapsed1, level1, flow2 … of a sent step test, in the order in which they were pumped. */
export function stepRows(reader: Reader): StepRow[] {
  return rowNumbers(reader, ['flow', 'elapsed', 'level'], STEPS_MAX).flatMap((row) => {
    const flow = needed(reader, `flow${row}`, 'flow', `Step ${row} has no flow: enter it`)
    const duration = needed(
      reader,
      `elapsed${row}`,
      'minutes',
      `Step ${row} has no length: enter its minutes`,
    )
    const level = needed(
      reader,
      `level${row}`,
      'depth',
      `Step ${row} has no level: enter the level at its end`,
    )
    if (flow?.si === 0) reader.refuse(`flow${row}`, `Step ${row} has a flow of zero: leave the row blank`)
    return flow && duration && level ? [{ row, flow, duration, level }] : []
  })
}

/** A quantity with the unit of its field behind it where none was typed, so that the text means the same to every reader. */
export function withUnit(reader: Reader, field: string, use: Use): StoredQuantity | undefined {
  const quantity = reader.quantity(field, use)
  if (!quantity || !/^[-+\d.,\s]+$/.test(quantity.typed)) return quantity
  return { ...quantity, typed: `${quantity.typed} ${unitSymbol(displayUnit(use, reader.system))}` }
}

function needed(reader: Reader, field: string, use: Use, blank: string): StoredQuantity | undefined {
  const quantity = withUnit(reader, field, use)
  if (!quantity) reader.refuse(field, blank)
  if (quantity && use !== 'depth' && quantity.si < 0) {
    reader.refuse(field, 'The time lies before the clock started: correct it, or strike the reading')
    return undefined
  }
  return quantity
}

function rowNumbers(reader: Reader, names: readonly string[], most: number): number[] {
  return Array.from({ length: most }, (_, i) => i + 1).filter((row) =>
    names.some((name) => reader.text(`${name}${row}`) !== ''),
  )
}
