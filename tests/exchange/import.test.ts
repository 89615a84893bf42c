import { readFileSync } from 'node:fs'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import writeExcelFile from 'write-excel-file/node'
import { OUTFIT } from '@/lib/access/viewer'
import type { TableKind } from '@/lib/exchange/columns'
import { exportCsv } from '@/lib/exchange/export'
import { importEnded, startImport } from '@/lib/exchange/jobs'
import type { Mapping } from '@/lib/exchange/mapping'
import { dryRun } from '@/lib/exchange/plan'
import { suggestMapping } from '@/lib/exchange/suggest'
import { readTable } from '@/lib/exchange/table'
import { keepUpload, openUpload } from '@/lib/exchange/uploads'
import { commitBatch } from '@/lib/records/batches'
import type { Db } from '@/lib/records/db'
import { loadDemo } from '@/seed'
import { freshDb } from '../setup/fresh-db'

const TODAY = '2026-11-20'
const AT = '2026-11-20T12:00:00.000Z'
const OPTIONS = { createMissingWells: false, updateExisting: false, today: TODAY }
const bytes = (text: string) => new TextEncoder().encode(text)

async function tableOf(content: string | Uint8Array) {
  const reading = await readTable(typeof content === 'string' ? bytes(content) : content)
  if (reading.kind !== 'table') throw new Error(JSON.stringify(reading))
  return reading.table
}

async function run(
  db: Db,
  content: string | Uint8Array,
  kind: TableKind,
  mapping?: Mapping,
  options = OPTIONS,
) {
  const table = await tableOf(content)
  const file = { fileName: 'test', fileSha256: 'x', table }
  return dryRun(
    db,
    OUTFIT,
    file,
    kind,
    mapping ?? suggestMapping(table, kind).mapping,
    { locale: null },
    options,
  )
}

async function bring(db: Db, content: string, kind: TableKind): Promise<void> {
  const { plan, problems, questions } = await run(db, content, kind)
  if (!plan) throw new Error(JSON.stringify({ kind, problems: problems.slice(0, 5), questions }))
  const outcome = await commitBatch(db, OUTFIT, plan, AT)
  if (outcome.kind !== 'done') throw new Error(JSON.stringify(outcome))
}

describe('a table', () => {
  test.each([
    ['commas', 'well,notes\nA,"x, y"\n'],
    ['semicolons and a mark of byte order', '\uFEFFwell;notes\r\nA;x, y\r\n'],
    ['tabs', 'well\tnotes\nA\tx, y\n'],
    ['blank lines around it', '\n\nwell;notes\n\nA;x, y\n\n'],
  ])('with %s is read', async (_, text) => {
    const table = await tableOf(text)
    expect(table.header).toEqual(['well', 'notes'])
    expect(table.rows.map((row) => row.cells)).toEqual([['A', 'x, y']])
  })

  test('keeps a line break within quotes', async () => {
    const table = await tableOf('well,notes\nA,"one\ntwo"\nB,z\n')
    expect(table.rows.map((row) => row.cells[1])).toEqual(['one\ntwo', 'z'])
  })

  test('of 40 columns under merged title rows is found in a workbook', async () => {
    const head = ['well', 'name', ...Array.from({ length: 38 }, (_, i) => `Extra ${i + 1}`)]
    const rows = [
      ['Our wells'],
      [''],
      head,
      ['A-1', 'Barn', ...Array.from({ length: 38 }, (_, i) => (i % 7 === 0 ? 'x' : ''))],
    ]
    const cell = (value: string) => ({ value, type: String as StringConstructor })
    const file = await writeExcelFile(rows.map((row) => row.map(cell))).toBuffer()
    const table = await tableOf(new Uint8Array(file))
    expect(table.header.length).toBe(40)
    expect(table.rows.length).toBe(1)
  })

  test('of 50,000 rows is read', async () => {
    const rows = Array.from({ length: 50_000 }, (_, i) => `W${i},2026-05-04,${i % 9}`)
    const table = await tableOf(`well,date,static_level_m\n${rows.join('\n')}\n`)
    expect(table.rows.length).toBe(50_000)
  })

  test('that is none is refused in words', async () => {
    for (const content of ['', '\u0000\u0001\u0002', '%PDF-1.7 abc']) {
      const reading = await readTable(bytes(content))
      expect(reading.kind === 'refused' && reading.message.length > 10, content).toBe(true)
    }
  })
})

describe('a dry run', () => {
  test('lists every problem with its row, column and value, and plans nothing', async () => {
    const db = await freshDb()
    const { problems, plan } = await run(
      db,
      'well,installed,well_depth_m\nA,2020-02-30,4\na,2020-01-01,deep\n,2020-01-01,3\n',
      'wells',
    )
    expect(plan).toBeNull()
    expect(problems).toEqual(
      expect.arrayContaining([
        expect.objectContaining({ row: 2, column: 'installed', value: '2020-02-30' }),
        expect.objectContaining({ row: 3, value: 'deep' }),
      ]),
    )
    expect(problems.some((problem) => problem.row === 4)).toBe(true)
    expect(problems.some((problem) => /2/.test(problem.message) && problem.row === 3)).toBe(true)
  })

  test('names days of the week that are none, by row and column', async () => {
    const read = async (days: string) =>
      run(await freshDb(), `well,visit_days\nA,"Tue, Sat"\nB,${days}\n`, 'wells')
    const { problems, plan } = await read('when it rains')
    expect(plan).toBeNull()
    expect(problems).toMatchObject([{ row: 3, column: 'visit_days', value: 'when it rains' }])
    expect((await read('weekends')).problems).toEqual([])
  })

  test('asks for the unit and the order of dates instead of guessing', async () => {
    const db = await freshDb()
    const table = await tableOf('well,installed,depth\nA,03/04/2020,12\n')
    const mapping: Mapping = { 0: { field: 'well' }, 1: { field: 'installed' }, 2: { field: 'well_depth' } }
    const file = { fileName: 't', fileSha256: 'x', table }
    const { questions } = await dryRun(db, OUTFIT, file, 'wells', mapping, { locale: null }, OPTIONS)
    expect(questions.map((question) => question.kind).sort()).toEqual(['date-order', 'unit'])
  })

  test('meets two hundred spoilt files without a crash, and stores nothing of what it refuses', async () => {
    const db = await freshDb()
    const good =
      'well,date,static_level_m,flow_gal_per_min,hour_meter_h,event,note\nA,2026-01-02,2.5,9,100,flooded,ok\nB,2026-01-03,1 ft,8,110,,"quoted, text"\n'
    await fc.assert(
      fc.asyncProperty(
        fc.array(
          fc.record({
            at: fc.nat(good.length - 1),
            to: fc.constantFrom('"', ',', ';', '\n', '\u0000', '9', 'x', '='),
          }),
          { minLength: 1, maxLength: 6 },
        ),
        async (slips) => {
          const spoilt = slips.reduce((text, { at, to }) => text.slice(0, at) + to + text.slice(at + 1), good)
          const reading = await readTable(bytes(spoilt))
          if (reading.kind !== 'table') return
          const file = { fileName: 't', fileSha256: 'x', table: reading.table }
          const { mapping } = suggestMapping(reading.table, 'visits')
          const { plan, problems } = await dryRun(
            db,
            OUTFIT,
            file,
            'visits',
            mapping,
            { locale: null },
            { ...OPTIONS, createMissingWells: true },
          )
          if (problems.length > 0) expect(plan).toBeNull()
          for (const problem of problems) expect(problem.message.length).toBeGreaterThan(5)
        },
      ),
      { numRuns: 200 },
    )
    expect(db.sqlite.prepare('SELECT COUNT(*) FROM "Entry"').pluck().get()).toBe(0)
  })
})

test('what is exported comes back the same: the demo fleet, out, into an empty database, and out again', async () => {
  const [one, two] = [await freshDb(), await freshDb()]
  await loadDemo(one, AT, TODAY)
  const kinds: TableKind[] = ['wells', 'duties', 'visits', 'recovery', 'samples', 'entries']
  const files = new Map(kinds.map((kind) => [kind, [...exportCsv(one, OUTFIT, kind)].join('')]))
  for (const [kind, text] of files) if (text.trim().split('\n').length > 1) await bring(two, text, kind)
  for (const [kind, text] of files) expect([...exportCsv(two, OUTFIT, kind)].join(''), kind).toBe(text)
})

test('a cell that a spreadsheet would take for a formula is guarded on the way out and freed on the way in', async () => {
  const [one, two] = [await freshDb(), await freshDb()]
  const texts = ['=1+1', '+x', '-y', '@z']
  await bring(one, `well,notes\n${texts.map((text, i) => `W${i},${text}`).join('\n')}\n`, 'wells')
  const out = [...exportCsv(one, OUTFIT, 'wells')].join('')
  for (const text of texts) expect(out).toContain(`'${text}`)
  await bring(two, out, 'wells')
  expect(two.sqlite.prepare('SELECT "notes" FROM "Well" ORDER BY "label"').pluck().all()).toEqual(texts)
})

describe('an upload', () => {
  let folder = ''
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'wellround-uploads-'))
  })
  afterAll(() => rm(folder, { recursive: true, force: true }))

  test('of a public table of real water levels, in feet and metres by row, becomes wells and levels', async () => {
    // US Geological Survey (public domain) and DINOloket of TNO, Geological Survey of the Netherlands; see data/trend/README.md.
    const db = await freshDb()
    const content = readFileSync('tests/published/data/trend/depth_open.csv')
    const kept = await keepUpload(folder, OUTFIT, 'depth_open.csv', content, AT)
    if (kept.kind !== 'kept') throw new Error(kept.message)
    const mapping: Mapping = {
      0: { field: 'well' },
      1: { field: 'date' },
      2: { field: 'static_level', unit: { fromColumn: 3 } },
      3: 'skip',
    }
    const job = startImport(
      db,
      OUTFIT,
      folder,
      {
        uploadId: kept.upload.id,
        kind: 'visits',
        choice: {},
        mapping,
        answers: { locale: 'en' },
        options: { ...OPTIONS, createMissingWells: true },
      },
      AT,
    )
    expect(await importEnded(OUTFIT, job.id)).toMatchObject({
      kind: 'done',
      counts: { wellsAdded: 6, entriesAdded: 1841 },
    })
    // 22.04 ft below land surface stands in the file for this site and day; 1 ft = 0.3048 m exactly.
    const lines = content.toString().split('\n')
    const [site, day, depth] = (lines.find((row) => row.startsWith('USGS-402333111513401')) ?? '').split(',')
    const payload = db.sqlite
      .prepare(
        `SELECT e."payload" FROM "Entry" e JOIN "Well" w ON w."id" = e."wellId" WHERE w."label" = ? AND e."occurredOn" = ?`,
      )
      .pluck()
      .get(site, day)
    expect(JSON.parse(String(payload)).level.si).toBeCloseTo(Number(depth) * 0.3048, 9)
    expect(await openUpload(folder, OUTFIT, kept.upload.id)).toBeNull()
  })
})
