/** Everything the outfit has, as one ZIP archive: every table, the plain files, every attached file, and a list of it all. */
import { createHash } from 'node:crypto'
import type { Viewer } from '@/lib/access/viewer'
import { asItStands } from '@/lib/records/as-it-stands'
import type { Db } from '@/lib/records/db'
import { type FileStore, filesOf } from '@/lib/records/file-store'
import {
  allStoredFiles,
  demandWhole,
  rowsOfTable,
  type StoredFile,
  storedFilesSize,
  tablesLeft,
  tablesTaken,
} from '@/lib/records/whole-tables'
import { TABLE_KINDS } from './columns'
import { exportCsv } from './export'
import { exportParts } from './export-parts'
import { exportPlates } from './export-plates'
import { exportRounds } from './export-rounds'
import { exportStockCsv, STOCK_FILES } from './export-stock'
import { Archive } from './zip'

/** What one archive of the common kind holds: four gigabytes and 65,535 files, less some room for tables. */
const MOST_BYTES = 3_500_000_000
const MOST_FILES = 60_000

/** Whether everything goes into one archive. Throws NotAllowed unless the viewer may take everything. */
export function wholeFits(db: Db, viewer: Viewer): boolean {
  const { count, bytes } = storedFilesSize(db, viewer)
  return count <= MOST_FILES && bytes <= MOST_BYTES
}

type Listed = { path: string; bytes: number; sha256: string; rows?: number }
type Trouble = { attachment: string; why: string }

/**
 * The archive in pieces, made as they are asked for, all of one instant: `at`. Its last file, `manifest.json`, names every
 * other with its size and SHA-256, every table that is not in it with the reason, and every attached file that is gone or is not
 * what was stored. A fault while reading throws, and what was sent by then has no end: it opens nowhere as a whole archive.
 * Throws  NotAllowed unless the viewer may take everything.
 */
export async function* wholeExport(
  live: Db,
  viewer: Viewer,
  at: string,
  store: FileStore = filesOf(live),
): AsyncGenerator<Uint8Array> {
  demandWhole(viewer)
  const db = asItStands(live)
  try {
    const archive = new Archive(new Date(at))
    const listed: Listed[] = []
    const troubles: Trouble[] = []
    for (const { path, text } of textFiles(db, viewer)) yield* texts(archive, listed, path, text)
    for (const file of allStoredFiles(db, viewer)) {
      const bytes = await whatIsThere(store, file, troubles)
      if (bytes === null) continue
      const path = `files/${file.stored}${EXTENSIONS[file.type] ?? ''}`
      listed.push({ path, bytes: bytes.length, sha256: sha256(bytes) })
      yield* archive.stored(path, bytes)
    }
    yield* texts(archive, [], 'manifest.json', manifest(at, listed, troubles))
    yield* archive.end()
  } finally {
    await db.close()
  }
}

const EXTENSIONS: Readonly<Record<string, string>> = { 'image/jpeg': '.jpg', 'application/pdf': '.pdf' }

type TextFile = { path: string; text: Generator<{ text: string; rows: number }> }

/** Every table as a line of JSON a row, then the plain files. */
function* textFiles(db: Db, viewer: Viewer): Generator<TextFile> {
  for (const table of tablesTaken())
    yield { path: `tables/${table.name}.jsonl`, text: lines(rowsOfTable(db, viewer, table)) }
  const plain = (name: string, pieces: Generator<string>): TextFile => ({
    path: `plain/${name}.csv`,
    text: uncounted(pieces),
  })
  for (const kind of TABLE_KINDS) yield plain(kind, exportCsv(db, viewer, kind))
  for (const file of STOCK_FILES) yield plain(file, exportStockCsv(db, viewer, file))
  yield plain('rounds', exportRounds(db, viewer))
  yield plain('parts', exportParts(db, viewer))
  yield plain('plates', exportPlates(db, viewer))
}

function* lines(pages: Generator<Record<string, unknown>[]>) {
  for (const rows of pages)
    yield { text: rows.map((row) => `${JSON.stringify(row)}\n`).join(''), rows: rows.length }
}

function* uncounted(pieces: Generator<string>) {
  for (const text of pieces) yield { text, rows: 0 }
}

async function* texts(
  archive: Archive,
  listed: Listed[],
  path: string,
  pieces: Iterable<{ text: string; rows: number }>,
): AsyncGenerator<Uint8Array> {
  const hash = createHash('sha256')
  const about = { path, bytes: 0, rows: 0 }
  const file = archive.packed(path)
  for (const { text, rows } of pieces) {
    const bytes = Buffer.from(text)
    hash.update(bytes)
    about.bytes += bytes.length
    about.rows += rows
    yield* file.add(bytes)
    // Text is packed in the process that serves: others get their turn between two pieces.
    await new Promise(setImmediate)
  }
  yield* file.end()
  const { rows, ...rest } = about
  listed.push({ ...rest, sha256: hash.digest('hex'), ...(path.startsWith('tables/') ? { rows } : {}) })
}

async function whatIsThere(store: FileStore, file: StoredFile, troubles: Trouble[]): Promise<Buffer | null> {
  try {
    const bytes = await store.read(file.stored)
    if (sha256(bytes) !== file.sha256)
      troubles.push({ attachment: file.id, why: 'it is not what was stored: the file was changed' })
    return bytes
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error
    troubles.push({ attachment: file.id, why: 'its file is gone from the data folder' })
    return null
  }
}

function manifest(at: string, files: readonly Listed[], troubles: readonly Trouble[]) {
  const content = {
    program: 'Wellround',
    made: at,
    what: 'tables: a row a line as JSON, quantities in SI; plain: the same for spreadsheets; files: what was attached, named by the column "stored" of the table Attachment',
    files,
    columnsLeftOut: tablesTaken().flatMap(({ name, without }) =>
      Object.entries(without).map(([column, why]) => ({ column: `${name}.${column}`, why })),
    ),
    tablesLeftOut: tablesLeft(),
    troubles,
  }
  return [{ text: `${JSON.stringify(content, null, 2)}\n`, rows: 0 }]
}

const sha256 = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex')
