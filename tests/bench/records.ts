import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { performance } from 'node:perf_hooks'
import Database from 'better-sqlite3'
import { OUTFIT } from '@/lib/access/viewer'
import { bandOf } from '@/lib/domain/yield/decline/fleet'
import { commitBatch } from '@/lib/records/batches'
import { type Db, openDb } from '@/lib/records/db'
import { dueCounts, dueFacets, duePage, URGENCIES } from '@/lib/records/due-list'
import { newId } from '@/lib/records/ids'
import { mapPoints, mapWells } from '@/lib/records/map-wells'
import { migrate } from '@/lib/records/migrate'
import { record } from '@/lib/records/record'
import { samplesDue, samplesDueCount } from '@/lib/records/sample-due'
import { recount } from '@/lib/records/standing-rows'
import { WATER_GROUPS, type WaterFilter, waterCounts, waterPage } from '@/lib/records/water-fleet'
import { wellList } from '@/lib/records/well-list'
import { wellPage } from '@/lib/records/wells'
import { causeCounts, fleetCalls, yieldPage } from '@/lib/records/yield-list'
import { AT, benchFleet, benchPlan, TODAY } from './fleet-db'
import { type Figure, processorMs } from './stats'

const RUNS = 60

/** A map holds every well of the fleet: beyond this nobody can use one without filters. */
const MAP_MAX = 10_000

/** Medians of the main questions at each fleet size, with their growth from the smallest, and the import's rate. */
export async function benchRecords(sizes: readonly number[]): Promise<Figure[]> {
  const figures: Figure[] = []
  const first = new Map<string, number>()
  for (const wells of sizes) {
    const db = await benchFleet(wells)
    spreadYield(db)
    spreadWater(db)
    for (const [name, run] of Object.entries(questions(db, wells))) {
      const ms = await medianMs(run)
      figures.push({ name: `${name}, ${wells.toLocaleString('en-US')} wells`, value: ms, unit: 'ms' })
      const base = first.get(name)
      if (base === undefined) first.set(name, ms)
      else figures.push({ name: `  times of the smallest fleet`, value: ms / base, unit: '×' })
    }
    await db.close()
  }
  figures.push(...(await benchImport()))
  return figures
}

function questions(db: Db, wells: number): Record<string, (i: number) => unknown> {
  const ids = db.sqlite.prepare<[], string>('SELECT "id" FROM "Well" ORDER BY "id" LIMIT 500').pluck().all()
  const ownerId = db.sqlite.prepare<[], string>('SELECT MIN("id") FROM "Owner"').pluck().get() ?? ''
  const idOf = (i: number) => ids[(i * 7) % ids.length] ?? ''
  return {
    'due list': () => {
      dueCounts(db, OUTFIT, TODAY, {})
      dueFacets(db, OUTFIT)
      return URGENCIES.map((urgency) => duePage(db, OUTFIT, TODAY, urgency, {}, null, 25))
    },
    'due list, one area and duty': () =>
      duePage(db, OUTFIT, TODAY, 'later', { area: 'Area 7', dutyKey: 'bacteria-sample' }, null, 50),
    ...(wells > MAP_MAX ? {} : { 'points of the map': () => mapPoints(mapWells(db, OUTFIT, TODAY, {})) }),
    'fleet by yield': () => {
      fleetCalls(db, OUTFIT)
      causeCounts(db, OUTFIT)
      return yieldPage(db, OUTFIT, {}, null, 25)
    },
    'fleet by yield, one area and cause': () =>
      yieldPage(db, OUTFIT, { area: 'Area 7', cause: 'water-table' }, null, 25),
    'fleet by yield, called in one area': () =>
      yieldPage(db, OUTFIT, { area: 'Area 7', called: true }, null, 25),
    'which calls hold over the fleet': () => fleetCalls(db, OUTFIT),
    'water of the fleet': () => wholeWater(db, {}),
    'water of the fleet, one area': () => wholeWater(db, { area: 'Area 7' }),
    'water of the fleet, one owner': () => wholeWater(db, { ownerId }),
    'water of the fleet, one area, a long page of each group': () =>
      WATER_GROUPS.map((group) => waterPage(db, OUTFIT, TODAY, group, { area: 'Area 7' }, null, 50)),
    'wells search': (i) =>
      wellList(db, OUTFIT, { search: `w${String((i * 37) % wells).padStart(6, '0')}` }, null, 50),
    'wells search, common words': () => wellList(db, OUTFIT, { search: 'place owner' }, null, 50),
    'one well page': (i) => wellPage(db, OUTFIT, idOf(i)),
    'one visit saved': (i) => record(db, OUTFIT, visit(idOf(i)), AT, TODAY),
  }
}

/** All that the water page asks for at once. */
function wholeWater(db: Db, filter: WaterFilter): unknown[] {
  return [
    waterCounts(db, OUTFIT, TODAY, filter),
    samplesDueCount(db, OUTFIT, TODAY, filter),
    samplesDue(db, OUTFIT, TODAY, filter, null, 10),
    ...WATER_GROUPS.map((group) => waterPage(db, OUTFIT, TODAY, group, filter, null, 10)),
  ]
}

/** The invented logbooks are too short for a verdict: suspicion is dealt out, three wells in a hundred called. */
function spreadYield(db: Db): void {
  db.sqlite.function('band_of', { deterministic: true }, (odds) => bandOf(Number(odds)))
  db.sqlite.exec(`UPDATE "Standing" SET "suspicion" = (rowid * 7919 % 1000) / 1000.0, "losing" = rowid % 33 = 0,
    "odds" = CASE WHEN rowid % 33 = 0 THEN 30.0 + rowid * 7919 % 100000 ELSE 0.5 END,
    "cause" = CASE WHEN rowid % 33 = 0 THEN 'well' WHEN rowid % 31 = 0 THEN 'water-table' WHEN rowid % 29 = 0 THEN 'pump'
      WHEN rowid % 11 = 0 THEN 'unclear' ELSE 'steady' END;
    UPDATE "Standing" SET "band" = CASE WHEN "losing" = 1 THEN band_of("odds") ELSE 0 END; ANALYZE`)
  recount(db.sqlite)
}

/**
 * The invented logbooks hold no lab sheets, so that every well stands as never tested: the lists are given a spread by hand,
 * two wells in a hundred in a chain, the rest over the verdicts and over five years of days.
 */
function spreadWater(db: Db): void {
  db.sqlite.exec(`UPDATE "Standing" SET
    "chain" = CASE WHEN rowid % 100 < 2 THEN 'bacteria' END,
    "chainOn" = CASE WHEN rowid % 100 < 2 THEN date('${TODAY}', '-' || (rowid % 300) || ' days') END,
    "waterGroup" = CASE WHEN rowid % 100 < 2 THEN 'chain-bacteria' WHEN rowid % 100 < 3 THEN 'exceeds'
      WHEN rowid % 20 = 5 THEN 'never' WHEN rowid % 10 = 4 THEN 'inconclusive' WHEN rowid % 10 = 5 THEN 'gaps' ELSE 'met' END,
    "waterOn" = CASE WHEN rowid % 100 < 2 THEN date('${TODAY}', '-' || (rowid % 300) || ' days') WHEN rowid % 20 = 5 THEN ''
      ELSE date('${TODAY}', '-' || (rowid % 1800) || ' days') END`)
  db.sqlite.exec('ANALYZE')
}

function visit(wellId: string): unknown[] {
  const line = {
    wellId,
    visitId: newId(),
    occurredOn: TODAY,
    occurredTime: null,
    byName: 'Bench',
    supersedes: null,
    withdraws: null,
  }
  return [
    { ...line, id: newId(), payload: { kind: 'service-done', duties: ['change-sediment-cartridge'] } },
    { ...line, id: newId(), payload: { kind: 'flow-reading', flow: { si: 0.0004, typed: '6.3 gpm' } } },
    { ...line, id: newId(), payload: { kind: 'note', text: 'bench' } },
  ]
}

/**
 * The commit of an import against raw inserts of the very same rows, into the same tables and indexes, in one run: the
 * first import of a process, which finds nothing warm, and the middle of those after it.
 */
async function benchImport(): Promise<Figure[]> {
  const runs: { rows: number; importMs: number; rawMs: number }[] = []
  for (let i = 0; i < IMPORTS; i += 1) runs.push(await importOnce())
  const [first, ...later] = runs
  const middle = later.sort((a, b) => a.importMs / a.rawMs - b.importMs / b.rawMs)[later.length >> 1]
  if (!first || !middle) throw new Error('no import was measured')
  const { rows, importMs, rawMs } = middle
  return [
    { name: 'import, rows stored', value: rows, unit: 'rows' },
    { name: 'import, by processor time', value: (1000 * rows) / importMs, unit: 'rows/s' },
    { name: 'raw inserts of the same rows, by processor time', value: (1000 * rows) / rawMs, unit: 'rows/s' },
    { name: 'import as share of raw', value: rawMs / importMs, unit: '×' },
    { name: '  the first of a process', value: first.rawMs / first.importMs, unit: '×' },
  ]
}

const IMPORTS = 4

async function importOnce(): Promise<{ rows: number; importMs: number; rawMs: number }> {
  const folder = mkdtempSync(join(tmpdir(), 'wellround-import-'))
  const [file, rawFile] = [join(folder, 'import.db'), join(folder, 'raw.db')]
  await migrate(file)
  const db = await openDb(file)
  const plan = benchPlan(0, 2000)
  const importMs = await processorMs(() => commitBatch(db, OUTFIT, plan, AT))
  await migrate(rawFile)
  const { rows, ms: rawMs } = await rawInserts(file, rawFile)
  await db.close()
  rmSync(folder, { recursive: true })
  return { rows, importMs, rawMs }
}

const TABLES = [
  'Owner',
  'Well',
  'WellWord',
  'Duty',
  'Entry',
  'Standing',
  'DueItem',
  'Batch',
  'Change',
] as const

async function rawInserts(fromFile: string, toFile: string): Promise<{ rows: number; ms: number }> {
  const from = new Database(fromFile, { readonly: true })
  const to = new Database(toFile)
  to.pragma('journal_mode = WAL')
  to.pragma('synchronous = FULL')
  to.pragma('foreign_keys = ON')
  const tables = TABLES.map((table) => {
    const rows = from.prepare<[], unknown[]>(`SELECT * FROM "${table}"`).raw().all()
    const marks = rows[0]?.map(() => '?').join(',') ?? ''
    return { rows, insert: rows.length > 0 ? to.prepare(`INSERT INTO "${table}" VALUES (${marks})`) : null }
  })
  const ms = await processorMs(() =>
    to
      .transaction(() => {
        for (const { rows, insert } of tables) for (const row of rows) insert?.run(...row)
      })
      .immediate(),
  )
  from.close()
  to.close()
  return { rows: tables.reduce((sum, { rows }) => sum + rows.length, 0), ms }
}

async function medianMs(run: (i: number) => unknown): Promise<number> {
  for (let i = 0; i < 5; i += 1) await run(i)
  const times: number[] = []
  for (let i = 0; i < RUNS; i += 1) times.push(await elapsedMs(() => run(i + 5)))
  times.sort((a, b) => a - b)
  return times[Math.floor(RUNS / 2)] ?? 0
}

async function elapsedMs(run: () => unknown): Promise<number> {
  const started = performance.now()
  await run()
  return performance.now() - started
}
