/** Whether a sample was still good when the laboratory began: holding time and temperature, by analyte. */
import { hoursBetween } from './moment'
import { HOLDING, type HoldingRow } from './tables/holding'
import type { Sample } from './types'

/** A laboratory's own holding times, hours by analyte id: they win over the table. */
export type LabHolding = Readonly<Record<string, number>>

export type HoldState =
  | { kind: 'in-time'; hours: number | null }
  /** Times of day are missing or the sheet gives no time of arrival: said, not held against the sample. */
  | { kind: 'cannot-tell'; why: string }
  | { kind: 'late'; hours: number; limitHours: number; why: string }
  /** Too late by the book, but no laboratory can be in time (pH): flagged only. */
  | { kind: 'always-late'; why: string }
  | { kind: 'no-rule' }

/** The row of the table that holds for an analyte; chlorinated water has its own times. */
export function holdingRow(analyteId: string, chlorinated: boolean | null): HoldingRow | undefined {
  const rows = HOLDING.filter((row) => row.analytes.includes(analyteId))
  return (
    (chlorinated === true ? rows.find((row) => row.chlorinated) : undefined) ??
    rows.find((row) => !row.chlorinated)
  )
}

/**
 * Judges the holding time of one analyte in a sample: from sampledAt to analysedAt, or, where that is not on the sheet, to
 * receivedAt (late on arrival is late; in time on arrival is taken as in time). The limit itself is in time. Where only days
 * are known, the middle of the possible hours decides, and the answer says so.
 */
export function holdState(analyteId: string, sample: Sample, lab: LabHolding): HoldState {
  const row = holdingRow(analyteId, sample.chlorinated)
  const limitHours = lab[analyteId] ?? row?.holdHours
  if (limitHours === undefined) return { kind: 'no-rule' }
  if (row?.flagOnly)
    return {
      kind: 'always-late',
      why: `by the book ${row.holdText} from the tap: a laboratory value is a guide`,
    }
  const end = sample.analysedAt ?? sample.receivedAt
  if (end === null)
    return { kind: 'cannot-tell', why: 'the sheet does not say when the laboratory received the sample' }
  if (end < sample.sampledAt.slice(0, end.length))
    return {
      kind: 'late',
      hours: 0,
      limitHours,
      why: 'the sheet has the sample received before it was taken: check the dates',
    }
  const { least, middle, most } = hoursBetween(sample.sampledAt, end)
  if (middle > limitHours)
    return {
      kind: 'late',
      hours: middle,
      limitHours,
      why: `${lateWords(least, most)} from tap to laboratory, ${limitHours} h allowed`,
    }
  if (most > limitHours)
    return {
      kind: 'cannot-tell',
      why: `times of day are missing: up to ${Math.floor(most)} h may have passed, ${limitHours} h allowed`,
    }
  return { kind: 'in-time', hours: least === most ? least : null }
}

function lateWords(least: number, most: number): string {
  return least === most ? `${Math.round(least * 10) / 10} h` : `${Math.floor(least)} to ${Math.ceil(most)} h`
}

/** One sentence where the sample arrived warmer than its row allows; null where it did not or nobody measured. */
export function warmth(analyteId: string, sample: Sample): string | null {
  const row = holdingRow(analyteId, sample.chlorinated)
  if (!row || row.maxTempC === null || sample.receivedTempC === null || sample.receivedTempC <= row.maxTempC)
    return null
  return `arrived at ${sample.receivedTempC} °C, at most ${row.maxTempC} °C allowed`
}
