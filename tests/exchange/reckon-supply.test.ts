import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { supplyText } from '@/lib/domain/logbook/supply-facts'
import { toSi } from '@/lib/domain/quantity'
import { readFolder } from '@/lib/exchange/folder'
import { reckonLines } from '@/lib/exchange/reckon-lines'

let folder = ''
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'wellround-supply-'))
})
afterAll(() => rm(folder, { recursive: true }))

const FACTS = supplyText({
  drive: 'mains',
  uses: [{ name: 'garden', daily: { si: toSi(6000, 'L/d'), typed: '6000 L/d' }, months: [6, 7, 8] }],
  setOn: '2026-05-01',
})
const VISITS = `well,date,static_level_m,pumping_level_m,flow_l_per_min,pumped_min
A,2026-03-01,2,3,4,60
B,2026-03-01,2,3,4,60
A,2026-09-01,2,3,4,60
B,2026-09-01,2,3,4,60
`

type Line = { well: string; asOf?: string; duties: { duty: string; due: string; basis: string }[] }

async function linesOf(cell: string, replay: boolean): Promise<{ lines: Line[]; problems: number }> {
  const wells = `well,intake_depth_m,storage_l,supply_facts\nA,4,1000,"${cell.replaceAll('"', '""')}"\nB,4,1000,\n`
  await writeFile(join(folder, 'wells.csv'), wells)
  await writeFile(join(folder, 'visits.csv'), VISITS)
  const read = await readFolder(folder)
  const lines = [...reckonLines(read.wells, { asOf: null, replay })].map((text) => JSON.parse(text) as Line)
  return { lines, problems: read.problems.length }
}

test('the first short day stands among the duties of a well whose files say what drives the pump', async () => {
  const { lines, problems } = await linesOf(FACTS, false)
  expect(problems).toBe(0)
  expect(lines.map(({ well, duties }) => [well, duties.map(({ duty }) => duty)])).toEqual([
    ['A', ['Water runs short']],
    ['B', []],
  ])
  expect(Object.keys(lines[0]?.duties[0] ?? {})).toEqual(['duty', 'due', 'basis', 'from', 'to'])
  expect(lines[0]?.duties[0]).toMatchObject({ basis: 'condition', due: expect.stringMatching(/^2027-06-/) })
})

test('a replay knows it from the day on which it was stated, and no earlier', async () => {
  const { lines } = await linesOf(FACTS, true)
  const ofA = lines.filter(({ well }) => well === 'A')
  expect(ofA.map(({ asOf, duties }) => [asOf, duties.length])).toEqual([
    ['2026-03-01', 0],
    ['2026-09-01', 1],
  ])
})

test('a cell that is no supply is a problem of its row', async () => {
  const { problems } = await linesOf('spring fed', false)
  expect(problems).toBe(1)
})
