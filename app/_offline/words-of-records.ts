import { type Use, unitSymbols } from '@/lib/domain/quantity'
import { isUntouched, rowsOf } from '@/lib/forms/sheet/rows'
import { TEST_WORDS } from '@/lib/forms/test/words'
import type { QueuedVisit } from './store'
import { fieldsSaid, type Said } from './words-of-fields'

/** What a record that waits is called. */
export function titleOf({
  kind,
  test,
  stopId,
  label,
}: Pick<QueuedVisit, 'kind' | 'test' | 'stopId' | 'label'>): string {
  if (kind === 'test' && test) return `${TEST_WORDS[test].title} at ${label}`
  if (kind === 'sheet') return `Lab sheet for ${label}`
  return stopId ? `Stop at ${label}` : `Visit to ${label}`
}

/** Everything that was typed into a record: its fields, then the readings of a test or the rows of a sheet, a line each. */
export function saidOf({ kind, units, typed }: Pick<QueuedVisit, 'kind' | 'units' | 'typed'>): Said[] {
  const inRow = kind === 'test' ? READING : kind === 'sheet' ? CELL : null
  if (inRow === null) return fieldsSaid(typed)
  const fields = Object.entries(typed).filter(([field]) => !inRow.test(field))
  const said = fieldsSaid(Object.fromEntries(fields)).map((line) => inUnit(line, units))
  return [...said, ...(kind === 'test' ? readings(typed, units) : results(typed))]
}

/** The quantities beside the rows, each in the unit of its field. */
function inUnit(line: Said, units: QueuedVisit['units']): Said {
  const use = USES[line.field]
  return use ? { ...line, text: withUnit(line.text, unitSymbols(units)[use]) } : line
}

const USES: Readonly<Record<string, Use>> = {
  static: 'depth',
  flow: 'flow',
  pumpedMinutes: 'minutes',
  receivedTemp: 'temperature',
}

const READING = /^(?:elapsed|level|flow)\d+$/
const CELL = /^r\d+:/

function readings(typed: QueuedVisit['typed'], units: QueuedVisit['units']): Said[] {
  const { minutes, depth, flow } = unitSymbols(units)
  const rows = new Set(
    Object.keys(typed).flatMap((field) => (READING.test(field) ? [Number(/\d+$/.exec(field)?.[0])] : [])),
  )
  return [...rows]
    .sort((a, b) => a - b)
    .flatMap((row) => {
      const cell = (name: string, unit: string) => withUnit(typed[`${name}${row}`] ?? '', unit)
      const [rate, time, level] = [cell('flow', flow), cell('elapsed', minutes), cell('level', depth)]
      if (`${rate}${time}${level}` === '') return []
      const text = [rate, time || 'no time', level || 'no level yet'].filter(Boolean).join(', ')
      return [{ field: `level${row}`, what: `${rate ? 'Step' : 'Reading'} ${row}`, text }]
    })
}

/** A number alone was meant in the unit of its field. */
const withUnit = (text: string, unit: string) =>
  /^[-+\d.,\s]+$/.test(text) ? `${text.trim()} ${unit}` : text.trim()

function results(typed: QueuedVisit['typed']): Said[] {
  return rowsOf(typed).flatMap((row, i) => {
    if (isUntouched(row)) return []
    const { analyte, result, unit, reportingLimit, qualifier, method } = row
    const more = [
      [result || 'no result', unit].filter(Boolean).join(' '),
      reportingLimit && `reporting limit ${reportingLimit}`,
      qualifier && `qualifier ${qualifier}`,
      method && `method ${method}`,
    ]
    return [{ field: `r${i + 1}`, what: analyte || `Row ${i + 1}`, text: more.filter(Boolean).join(', ') }]
  })
}
