/** Samples for the water tests, from the text of a sheet. */
import { type RowText, readResult } from '@/lib/domain/water/results'
import type { Result, Sample } from '@/lib/domain/water/types'

/** A result read from "analyte | result | unit | reporting limit | qualifier"; a row that is no result fails the test. */
export function result(line: string): Result {
  const [analyte = '', text = '', unit = '', reportingLimit = '', qualifier = ''] = line
    .split('|')
    .map((cell) => cell.trim())
  const row: RowText = { analyte, result: text, unit, reportingLimit, qualifier, method: '' }
  const reading = readResult(row, { locale: 'en' })
  if (reading.kind !== 'result') throw new Error(`${line}: ${JSON.stringify(reading)}`)
  return reading.result
}

/** A sample in good order: received the same day, cool; with what the lines say. */
export function sample(lines: readonly string[], change: Partial<Sample> = {}): Sample {
  const sampledAt = change.sampledAt ?? '2025-06-02T08:00'
  return {
    id: 's1',
    sampledAt,
    receivedAt: `${sampledAt.slice(0, 10)}T12:00`,
    analysedAt: null,
    receivedTempC: 5,
    lab: 'Sorrel Lab',
    point: 'kitchen tap',
    chlorinated: false,
    results: lines.map(result),
    asked: [],
    unread: [],
    ...change,
  }
}

export const CLEAR = ['Total coliform | Absent', 'E. coli | Absent', 'Nitrate-N | 1.2 | mg/L | 0.1']
