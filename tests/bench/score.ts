/**
 * `npm run score -- FOLDER TRUTH`: how well `npm run reckon -- FOLDER --replay` tells what TRUTH knows of the wells.
 *
 * FOLDER holds wells.csv and visits.csv; TRUTH holds truth.csv (well, cause, shape, onset, rate_per_year,
 * cross75_date, last_visit and, where known, short_date) and asof.csv (well, asof: the days on which forecasts are
 * scored; only wells that clog and pass three quarters are).
 */
import { spawn } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { parse } from 'csv-parse/sync'
import { z } from 'zod'
import { yearsSince } from '@/lib/domain/quantity/day'
import { type AsOf, asOfPoints, type Line, type Told, type Truth } from '../sim/score'
import { printFigures } from './decline-table'

const day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/)
const dayOrBlank = z
  .union([z.literal(''), day])
  .optional()
  .transform((text) => (text ? text : null))
const truthRow = z.object({
  well: z.string(),
  cause: z.enum(['steady', 'clogging', 'watertable', 'pump', 'rehabilitated']),
  shape: z.string(),
  onset: dayOrBlank,
  rate_per_year: z.string(),
  cross75_date: dayOrBlank,
  short_date: dayOrBlank,
  last_visit: day,
})
const outlook = z
  .object({ date: day.nullable(), low: day.nullable(), high: day.nullable() })
  .transform(({ date, low, high }) => ({ on: date, low, high }))
  .nullable()
const reckoned = z.object({
  well: z.string(),
  asOf: day,
  yield: z.object({
    flag: z.boolean(),
    cause: z.enum(['steady', 'well', 'water-table', 'pump', 'unclear']),
    outlook: z.object({ to75Percent: outlook, belowDemand: outlook }),
  }),
})

const [folder, truthFolder] = process.argv.slice(2)
if (!folder || !truthFolder) {
  console.error('Usage: npm run score -- FOLDER TRUTH')
  process.exit(2)
}
const truths = new Map(rows(join(truthFolder, 'truth.csv'), truthRow).map((row) => [row.well, truthOf(row)]))
const lines = await replay(folder)
const told: Told[] = [...truths].map(([well, truth]) => ({ well, truth, lines: lines.get(well) ?? [] }))
printFigures(folder, told, asOfOf(truthFolder, told), asOfPoints(told, 'shortOn'))

function rows<T>(file: string, row: z.ZodType<T>): T[] {
  return z.array(row).parse(parse(readFileSync(file, 'utf8'), { columns: true, bom: true }))
}

function truthOf(row: z.infer<typeof truthRow>): Truth {
  const elapsed = row.onset === null ? 0 : Math.max(0, yearsSince(row.last_visit, row.onset))
  const rate = row.rate_per_year === '' ? 0 : Number(row.rate_per_year)
  return {
    cause: row.cause,
    onset: row.onset,
    crosses75On: row.cross75_date,
    shortOn: row.short_date,
    leftAtEnd: row.shape === 'linear' ? 1 - rate * elapsed : Math.exp(-rate * elapsed),
  }
}

function asOfOf(path: string, all: readonly Told[]): AsOf[] {
  const byWell = new Map(all.map((one) => [one.well, one]))
  return rows(join(path, 'asof.csv'), z.object({ well: z.string(), asof: day })).flatMap(({ well, asof }) => {
    const one = byWell.get(well)
    return one?.truth.cause === 'clogging' ? [{ told: one, on: asof }] : []
  })
}

/** The lines of the command itself, by well. Ends the program where the command could not read the folder. */
async function replay(path: string): Promise<Map<string, Line[]>> {
  const command = spawn(process.execPath, ['lib/cli/run.mjs', 'lib/cli/reckon.ts', path, '--replay'], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  const found = new Map<string, Line[]>()
  const ended = new Promise<number | null>((resolve) => command.once('close', resolve))
  for await (const text of createInterface({ input: command.stdout })) {
    const { well, asOf, yield: said } = reckoned.parse(JSON.parse(text))
    const list = found.get(well) ?? []
    list.push({ on: asOf, flag: said.flag, cause: said.cause, ...said.outlook })
    found.set(well, list)
  }
  const status = await ended
  if (status !== 0) throw new Error(`npm run reckon ended with ${status}`)
  return found
}
