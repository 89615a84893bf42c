/**
 * The same real results by the way a user takes: written as a samples file, imported, kept as lines of a logbook, judged. The
 * counts by verdict are held against a query over the agency's own file that knows nothing of the product.
 */
import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { stringify } from 'csv-stringify/sync'
import { beforeAll, describe, expect, test } from 'vitest'
import { sampleOf } from '@/lib/domain/logbook/water-sample'
import { matchAnalyte } from '@/lib/domain/water/analytes'
import { judgeSample } from '@/lib/domain/water/verdict'
import { type FolderWell, readFolder } from '@/lib/exchange/folder'
import { reckonLines } from '@/lib/exchange/reckon-lines'
import { load, PER_UNIT, potomacCells, potomacWord, type Row, type Tally } from './plain-judge'

const rows = load('wqp_potomac_wells_2020_2023.csv')
let wells: FolderWell[] = []
let lines: { well: string; water: { verdict: string; findings: { analyte: string; verdict: string }[] } }[] =
  []

beforeAll(async () => {
  const folder = await mkdtemp(join(tmpdir(), 'wellround-potomac-'))
  const table = rows.map((row) => {
    const cells = potomacCells(row)
    return {
      well: row.MonitoringLocationIdentifier,
      sampled_at: row.ActivityStartDate,
      received_at: '',
      lab: 'USGS',
      sample_id: row.ActivityIdentifier,
      point: '',
      analyte: cells.analyte,
      result: cells.result,
      unit: cells.unit,
      reporting_limit: cells.reportingLimit,
      method: '',
    }
  })
  await writeFile(join(folder, 'samples.csv'), stringify(table, { header: true }))
  const read = await readFolder(folder)
  expect(read.problems).toEqual([])
  wells = read.wells
  lines = [...reckonLines(wells, { asOf: null, replay: false })].map((line) => JSON.parse(line))
  await rm(folder, { recursive: true })
})

const RANK = { meets: 0, inconclusive: 1, exceeds: 2 } as const
const keyOf = (row: Row) =>
  [row.MonitoringLocationIdentifier, row.ActivityStartDate, row.ActivityIdentifier].join('|')

/** The worst word of each sample on one substance, by the second judge. */
function secondCount(name: string): Tally {
  const worst = new Map<string, keyof Tally>()
  for (const row of rows.filter((each) => each.CharacteristicName === name)) {
    const word = potomacWord(row)
    if (word === null) throw new Error(name)
    const before = worst.get(keyOf(row))
    if (before === undefined || RANK[word] > RANK[before]) worst.set(keyOf(row), word)
  }
  const tally: Tally = { meets: 0, exceeds: 0, inconclusive: 0 }
  for (const word of worst.values()) tally[word] += 1
  return tally
}

function ourCount(name: string): Tally {
  const match = matchAnalyte(name)
  if (match.kind !== 'match') throw new Error(name)
  const tally: Tally = { meets: 0, exceeds: 0, inconclusive: 0 }
  for (const { entries } of wells)
    for (const { payload, id } of entries) {
      if (payload.kind !== 'sample') continue
      const { findings } = judgeSample(sampleOf(payload, id), { scheme: 'us', local: [], labHolding: {} })
      const own = findings.filter(
        (each) =>
          each.analyte === match.id &&
          (each.limit?.kind === 'health' || each.limit?.kind === 'action') &&
          // A sum rule of the same name reckons from its parts; here the laboratory's own number is meant.
          each.measured?.typed !== '',
      )
      for (const { verdict } of own)
        if (verdict === 'meets' || verdict === 'exceeds' || verdict === 'inconclusive') tally[verdict] += 1
    }
  return tally
}

describe('30 wells of the Potomac basin, through import, logbook and judgment', () => {
  test('every row of the file arrives', () => {
    const stored = wells.flatMap(({ entries }) =>
      entries.flatMap(({ payload }) => (payload.kind === 'sample' ? payload.results : [])),
    )
    expect(stored).toHaveLength(rows.length)
    expect(wells).toHaveLength(new Set(rows.map((row) => row.MonitoringLocationIdentifier)).size)
  })

  test.each(Object.keys(PER_UNIT))('%s: samples by verdict as in the second count', (name) => {
    expect(ourCount(name)).toEqual(secondCount(name))
  })

  test('the wells the command says exceed are those with a number over a limit in the file, and no other', () => {
    // Each of these wells was sampled without a later clear sheet, so that one number over a limit is the last word.
    const over = new Set(
      rows.filter((row) => potomacWord(row) === 'exceeds').map((row) => row.MonitoringLocationIdentifier),
    )
    const primary = new Set(
      Object.keys(PER_UNIT).flatMap((name) => {
        const match = matchAnalyte(name)
        return match.kind === 'match' ? [match.id] : []
      }),
    )
    const said = lines.filter(({ water }) =>
      water.findings.some(({ analyte, verdict }) => verdict === 'exceeds' && primary.has(analyte)),
    )
    expect([...said.map(({ well }) => well)].sort()).toEqual([...over].map(String).sort())
    expect(over.size).toBeGreaterThan(0)
  })

  test('no well is said to meet without bacteria and nitrate in the file', () => {
    const has = (well: string, names: readonly string[]) =>
      rows.some(
        (row) => row.MonitoringLocationIdentifier === well && names.includes(row.CharacteristicName ?? ''),
      )
    for (const { well, water } of lines.filter(({ water }) => water.verdict === 'meets')) {
      expect(water.findings.length).toBeGreaterThan(0)
      expect(has(well, ['Total Coliform'])).toBe(true)
      expect(has(well, ['Nitrate', 'Inorganic nitrogen (nitrate and nitrite)'])).toBe(true)
    }
    expect(lines).toHaveLength(wells.length)
  })
})
