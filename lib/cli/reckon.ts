/**
 * Reckons a folder of plain files without a database and prints one JSON object a line:
 * `npm run reckon -- FOLDER [--as-of DATE] [--replay] [--out FILE]`.
 *
 * Exit  0 where every row was read, 3 where some were not (each is named on standard error), 2 where nothing could be.
 */

import { once } from 'node:events'
import { createWriteStream, existsSync } from 'node:fs'
import { parseArgs } from 'node:util'
import { isDay } from '../domain/quantity'
import { type Folder, readFolder } from '../exchange/folder'
import { sayProblem } from '../exchange/problems'
import { type ReckonOptions, reckonLines } from '../exchange/reckon-lines'

const USAGE = 'Usage: npm run reckon -- FOLDER [--as-of YYYY-MM-DD] [--replay] [--out FILE]'
const ALL_READ = 0
const NOTHING_READ = 2
const SOME_UNREAD = 3
const CHUNK_CHARS = 65_536

type Job = { folder: string; out: string | null; options: ReckonOptions }

process.exitCode = await main(process.argv.slice(2))

async function main(args: string[]): Promise<number> {
  const job = readArguments(args)
  if (typeof job === 'string') return giveUp(`${job}\n${USAGE}`)
  if (!existsSync(job.folder)) return giveUp(`There is no folder ${job.folder}.`)
  const folder = await readFolder(job.folder)
  for (const { file, problem } of folder.problems) console.error(sayProblem(file, problem))
  if (folder.found === 0) {
    return giveUp(`${job.folder} holds none of wells.csv, duties.csv, visits.csv, recovery.csv, samples.csv.`)
  }
  if (nothingRead(folder)) return giveUp('Nothing in these files could be read.')
  await write(reckonLines(folder.wells, job.options), job.out)
  return folder.problems.length > 0 ? SOME_UNREAD : ALL_READ
}

function readArguments(args: string[]): Job | string {
  try {
    const { values, positionals } = parseArgs({
      args,
      allowPositionals: true,
      options: {
        'as-of': { type: 'string' },
        replay: { type: 'boolean', default: false },
        out: { type: 'string' },
      },
    })
    const [folder, ...more] = positionals
    const asOf = values['as-of'] ?? null
    if (folder === undefined || more.length > 0) return 'Name one folder.'
    if (asOf !== null && !isDay(asOf)) return `"${asOf}" is not a day: write it like 2026-03-27.`
    return { folder, out: values.out ?? null, options: { asOf, replay: values.replay } }
  } catch (error) {
    if (error instanceof TypeError) return error.message
    throw error
  }
}

function nothingRead({ wells, usable, problems }: Folder): boolean {
  return usable === 0 || (wells.length === 0 && problems.length > 0)
}

function giveUp(message: string): number {
  console.error(message)
  return NOTHING_READ
}

async function write(lines: Iterable<string>, out: string | null): Promise<void> {
  const stream = out === null ? process.stdout : createWriteStream(out)
  // A reader that has seen enough (`| head`) closes the pipe: that is no fault.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit()
    throw error
  })
  let chunk = ''
  const flush = async () => {
    if (chunk !== '' && !stream.write(chunk)) await once(stream, 'drain')
    chunk = ''
  }
  for (const line of lines) {
    chunk += `${line}\n`
    if (chunk.length > CHUNK_CHARS) await flush()
  }
  await flush()
  if (out !== null) {
    stream.end()
    await once(stream, 'finish')
  }
}
