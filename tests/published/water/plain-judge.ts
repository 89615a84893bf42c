/**
 * A second judge that knows nothing of the product: the numbers of the agency files, in the files' own units, against limits
 * written out here.
 */
import { readFileSync } from 'node:fs'
import { parse } from 'csv-parse/sync'

export type Row = Record<string, string>
export const load = (name: string): Row[] =>
  parse(readFileSync(`tests/published/data/water/${name}`, 'utf8'), { columns: true })

export type Tally = { meets: number; exceeds: number; inconclusive: number }

/** US EPA primary limits and action levels (40 CFR 141.62, .61, .63, .66, .80), in the units of the files. */
export const PER_UNIT: Record<string, Record<string, number>> = {
  Antimony: { 'ug/l': 6 },
  Arsenic: { 'ug/l': 10 },
  Barium: { 'ug/l': 2000 },
  Benzene: { 'ug/l': 5 },
  Beryllium: { 'ug/l': 4 },
  Cadmium: { 'ug/l': 5 },
  Chromium: { 'ug/l': 100 },
  Copper: { 'ug/l': 1300 },
  'Escherichia coli': { 'mpn/100 ml': 0 },
  Fluoride: { 'mg/l': 4 },
  'Inorganic nitrogen (nitrate and nitrite)': { 'mg/l as n': 10 },
  Lead: { 'ug/l': 15 },
  Mercury: { 'ug/l': 2 },
  Nitrate: { 'mg/l as n': 10, 'mg/l asno3': 44.268 },
  Nitrite: { 'mg/l as n': 1, 'mg/l asno2': 3.2845 },
  Selenium: { 'ug/l': 50 },
  Tetrachloroethylene: { 'ug/l': 5 },
  Thallium: { 'ug/l': 2 },
  'Total Coliform': { 'mpn/100 ml': 0 },
  Trichloroethylene: { 'ug/l': 5 },
  Uranium: { 'ug/l': 30 },
}

/** The second count: the plain number against the plain limit; a non-detect by its limit (1 in 100 mL sees all there is to see). */
export function plainWord(value: string, nonDetectAt: string, limit: number): keyof Tally {
  if (value !== '') return Number(value) > limit ? 'exceeds' : 'meets'
  if (nonDetectAt === '') return 'inconclusive'
  return Number(nonDetectAt) <= Math.max(limit, limit === 0 ? 1 : limit) ? 'meets' : 'inconclusive'
}

/** A row of the Potomac file as cells of a lab sheet: a non-detect and a trace are told by the condition beside them. */
export const potomacCells = (row: Row) => ({
  analyte: row.CharacteristicName ?? '',
  result:
    row.ResultMeasureValue !== ''
      ? (row.ResultMeasureValue ?? '')
      : row.ResultDetectionConditionText === 'Detected Not Quantified'
        ? 'Detected, not quantified'
        : 'ND',
  unit:
    (row['ResultMeasure.MeasureUnitCode'] || row['DetectionQuantitationLimitMeasure.MeasureUnitCode']) ?? '',
  reportingLimit: row['DetectionQuantitationLimitMeasure.MeasureValue'] ?? '',
  qualifier: '',
  method: '',
})

/** The second judge's word on a row of the Potomac file; null for what it has no limit for. */
export function potomacWord(row: Row): keyof Tally | null {
  const cells = potomacCells(row)
  const limits = PER_UNIT[row.CharacteristicName ?? '']
  if (limits === undefined) return null
  const limit = limits[cells.unit.toLowerCase()]
  if (limit === undefined) throw new Error(`${row.CharacteristicName} in ${cells.unit}`)
  if (cells.result.startsWith('Detected'))
    return Number(cells.reportingLimit) > limit ? 'inconclusive' : 'meets'
  return plainWord(row.ResultMeasureValue ?? '', cells.reportingLimit, limit)
}
