import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { z } from 'zod'
import { readFolder } from '@/lib/exchange/folder'
import { reckonLines } from '@/lib/exchange/reckon-lines'

/** The water part of the command's line (files.md: verdict, scheme, asOf, findings, next). */
const line = z.object({
  well: z.string(),
  asOf: z.string().optional(),
  water: z.strictObject({
    verdict: z.enum(['meets', 'exceeds', 'inconclusive', 'not-tested']),
    scheme: z.string(),
    asOf: z.string().nullable(),
    findings: z.array(
      z.object({
        analyte: z.string(),
        verdict: z.string(),
        why: z.string(),
        sampledOn: z.string(),
        result: z.string().nullable(),
        limit: z
          .object({ max: z.number(), unit: z.string(), source: z.string(), date: z.string() })
          .nullable(),
      }),
    ),
    next: z.array(z.string()),
  }),
})
type Water = z.infer<typeof line>['water']

let folder = ''
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'wellround-water-'))
})
afterAll(() => rm(folder, { recursive: true }))

const HEADING = 'well,sampled_at,received_at,lab,sample_id,point,analyte,result,unit,reporting_limit,method'
const GOOD = '2025-06-01T08:00,2025-06-01T12:00'

/** A samples file: one row each of "well | analyte | result | unit | reporting limit | taken,received". */
async function written(rows: readonly string[]): Promise<void> {
  const cell = (text: string) => (/[",]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text)
  const lines = rows.map((row) => {
    const [well = '', analyte = '', result = '', unit = '', limit = '', times = ''] = row
      .split('|')
      .map((each) => each.trim())
    return [
      well,
      ...(times === '' ? GOOD : times).split(','),
      'Sorrel Lab',
      '1',
      'kitchen tap',
      ...[analyte, result, unit, limit, ''].map(cell),
    ].join(',')
  })
  await writeFile(join(folder, 'samples.csv'), [HEADING, ...lines].join('\r\n'))
}

async function reckoned(rows: readonly string[], replay = false, asOf: string | null = null) {
  await written(rows)
  const { wells, problems } = await readFolder(folder)
  expect(problems).toEqual([])
  return [...reckonLines(wells, { asOf, replay })].map((text) => line.parse(JSON.parse(text)))
}
const waterOf = async (rows: readonly string[]): Promise<Water> => {
  const [only] = await reckoned(rows.map((row) => `W | ${row}`))
  if (!only) throw new Error('no line')
  return only.water
}
const finding = (water: Water, analyte: string) => water.findings.find((each) => each.analyte === analyte)

const CLEAR = ['Total Coliform Bacteria | Absent', 'Nitrate-N | 1.2 | mg/L | 0.1']

describe('one sheet', () => {
  test.each([
    ['all clear', [], 'meets'],
    ['coliform "<1"', ['Total Coliform | <1 | MPN/100mL | 1'], 'meets'],
    ['E. coli present', ['E. coli | Present'], 'exceeds'],
    ['E. coli over the range', ['E. coli | >2419.6 | MPN/100 mL'], 'exceeds'],
    ['coliform too many to count', ['Coliform bacteria | TNTC'], 'exceeds'],
    ['arsenic 10.0 at the limit', ['Arsenic | 10.0 | ppb'], 'meets'],
    ['arsenic just above', ['Arsenic | 10.1 | µg/L'], 'exceeds'],
    ['arsenic not detected, limit unknown', ['Arsenic | ND | ug/L'], 'inconclusive'],
    ['arsenic not detected at 20', ['Arsenic | ND | ug/L | 20'], 'inconclusive'],
    ['arsenic not detected at 1', ['Arsenic | ND | ug/L | 1'], 'meets'],
    ['arsenic trace', ['Arsenic | 0.05 J | ug/L | 1'], 'meets'],
    ['lead in mg/L by a slip', ['Lead | 5 | mg/L'], 'exceeds'],
    ['nitrate form not said, either way below', ['Nitrate | 9 | mg/L'], 'meets'],
    ['nitrate form not said, and it matters', ['Nitrate | 12 | mg/L'], 'inconclusive'],
    ['nitrate 45 as NO3 is 10.2 as N', ['Nitrate (as NO3) | 45 | mg/L'], 'exceeds'],
    [
      'nitrate and nitrite each below, together above',
      ['Nitrate-N | 9.5 | mg/L', 'Nitrite-N | 0.8 | mg/L'],
      'exceeds',
    ],
    ['iron that only stains', ['Iron | 2.0 | mg/L'], 'meets'],
    ['a row that cannot be read', ['Arsenic | 1,2 | ug/L'], 'not-tested'],
    ['a test nobody knows', ['Arsenlc | 12 | ug/L'], 'not-tested'],
  ] as const)('%s: %s', async (_, more, verdict) => {
    expect((await waterOf([...CLEAR, ...more])).verdict).toBe(verdict)
  })

  test('late at the laboratory is inconclusive, and to be taken again', async () => {
    const late = '2025-06-01T08:00,2025-06-02T15:00'
    const water = await waterOf([
      `Total coliform | Absent | | | ${late}`,
      `Nitrate-N | 1.2 | mg/L | | ${late}`,
    ])
    expect(water).toMatchObject({ verdict: 'inconclusive', asOf: '2025-06-01' })
    expect(finding(water, 'total-coliform')?.why).toBe('31 h from tap to laboratory, 30 h allowed')
    expect(finding(water, 'nitrate')?.verdict).toBe('meets')
    expect(water.next.join(' ')).toContain('Test Total coliform again')
  })

  test('each finding carries its result as written and its limit with source and date', async () => {
    const water = await waterOf([...CLEAR, 'Lead | 15.1 | µg/L'])
    expect(finding(water, 'lead')).toMatchObject({
      verdict: 'exceeds',
      result: '15.1 µg/L',
      limit: { max: 0.015, unit: 'mg/L', source: '40 CFR part 141 (US EPA)', date: 'in force' },
    })
    expect(water.scheme).toBe('US EPA')
  })

  test('what is open is asked, and says what to do', async () => {
    const { next } = await waterOf([...CLEAR, 'Nitrate | 12 | mg/L', 'Arsenic | 1,2 | ug/L'])
    expect(next.join('\n')).toMatch(/Is nitrate on this sheet given as N or as NO3\?/)
    expect(next.join('\n')).toMatch(/does the comma or point in 1,2 mark decimals or thousands\?/)
  })
})

test('wells in order of first appearance; one without a sample is not tested, and what to test first is said', async () => {
  await writeFile(join(folder, 'wells.csv'), 'well,installed\nB,2021-05-05\nA,\n')
  const lines = await reckoned(['A | Total coliform | Present', 'C | Nitrate-N | 3 | mg/L'])
  expect(lines.map(({ well, water }) => [well, water.verdict])).toEqual([
    ['B', 'not-tested'],
    ['A', 'exceeds'],
    ['C', 'not-tested'],
  ])
  expect(lines[0]?.water).toMatchObject({ asOf: null, findings: [] })
  expect(lines[0]?.water.next).toContain('Test bacteria on 2021-05-05: no usable result is on record.')
  await rm(join(folder, 'wells.csv'))
})

describe('a positive carried to its clearing', () => {
  const at = (day: string) => `${day}T08:00,${day}T12:00`
  const sheet = (day: string, result: string) => [
    `W | Total coliform | ${result} | | | ${at(day)}`,
    `W | Nitrate-N | 1.2 | mg/L | | ${at(day)}`,
  ]
  const rows = [
    ...sheet('2025-06-02', 'Present'),
    ...sheet('2025-06-20', 'Absent'),
    ...sheet('2025-06-23', 'Absent'),
    ...sheet('2025-06-27', 'Absent'),
  ]
  const visits = ['well,date,by,done', 'W,2025-06-10,Maren,Disinfection'].join('\n')

  test('by replay: exceeds, then one clear, one too soon after it, and the second that counts', async () => {
    await writeFile(join(folder, 'visits.csv'), visits)
    const lines = await reckoned(rows, true)
    await rm(join(folder, 'visits.csv'))
    expect(lines.map(({ asOf, water }) => [asOf, water.verdict])).toEqual([
      ['2025-06-02', 'exceeds'],
      ['2025-06-10', 'exceeds'],
      ['2025-06-20', 'inconclusive'],
      ['2025-06-23', 'inconclusive'],
      ['2025-06-27', 'meets'],
    ])
    expect(lines[0]?.water.next[0]).toMatch(/^Bacteria: Tell everyone/)
  })

  test('as of a day only what was known by then counts', async () => {
    const [early] = await reckoned(rows, false, '2025-06-21')
    expect(early?.water).toMatchObject({ verdict: 'inconclusive', asOf: '2025-06-20' })
  })
})

test('a flood after a clear test: not tested since, until a clear test after it', async () => {
  const times = (day: string) => `${day}T08:00,${day}T12:00`
  const sheet = (day: string) => [
    `W | Total coliform | Absent | | | ${times(day)}`,
    `W | Nitrate-N | 1.2 | mg/L | 0.1 | ${times(day)}`,
  ]
  await writeFile(join(folder, 'visits.csv'), 'well,date,by,event\nW,2025-07-03,Maren,flooded')
  const before = await reckoned(sheet('2025-06-01'), true)
  const after = await reckoned([...sheet('2025-06-01'), ...sheet('2025-07-20')], true)
  await rm(join(folder, 'visits.csv'))
  expect(before.map(({ asOf, water }) => [asOf, water.verdict])).toEqual([
    ['2025-06-01', 'meets'],
    ['2025-07-03', 'not-tested'],
  ])
  expect(before.at(-1)?.water.next.join(' ')).toMatch(/flood/i)
  expect(after.at(-1)?.water).toMatchObject({ verdict: 'meets', asOf: '2025-07-20' })
})

test('a row without a result leaves its sample out, whole, and is reported', async () => {
  await written(['W | Total coliform | Absent', 'W | Nitrate-N | | mg/L'])
  const { wells, problems } = await readFolder(folder)
  expect(problems).toHaveLength(1)
  expect(problems[0]).toMatchObject({ file: 'samples.csv', problem: { row: 3, column: 'result' } })
  const [only] = [...reckonLines(wells, { asOf: null, replay: false })].map((text) =>
    line.parse(JSON.parse(text)),
  )
  expect(only?.water.verdict).toBe('not-tested')
})
