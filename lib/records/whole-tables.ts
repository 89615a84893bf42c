import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { Db } from './db'
import type { Prisma } from './generated/client'
import type { EntryRow } from './rows'
import { entryAsShown } from './shown-entries'
import { prepared } from './statements'

/** What the whole export takes of a table: all columns but those in `without`, or nothing, each with its reason. */
export type Taken = { without: Readonly<Record<string, string>> } | { not: string }

const ALL: Taken = { without: {} }
const ANEW: Taken = { not: 'reckoned from register and logbook; "npm run rebuild" makes it anew' }
const WAY_IN: Taken = { not: 'a way to sign in, which nobody but its person may hold' }
const HASH = 'stands for a secret'

/**
 * Every table of the database and what leaves with the whole export. A table that is missing here does not compile, and a
 * column whose name sounds like a secret fails a test until it is named.
 */
export const WHOLE_TABLES: Readonly<Record<Prisma.ModelName, Taken>> = {
  Owner: ALL,
  Well: ALL,
  PumpModel: ALL,
  CartridgeModel: ALL,
  Part: ALL,
  Duty: ALL,
  Entry: ALL,
  Attachment: ALL,
  Plate: ALL,
  Round: ALL,
  Stop: ALL,
  StockItem: ALL,
  StockEntry: ALL,
  Batch: ALL,
  Change: ALL,
  Setting: ALL,
  User: ALL,
  Membership: ALL,
  Grant: ALL,
  Invitation: { without: { codeHash: HASH } },
  MailChoice: { without: { quietHash: HASH, feedHash: HASH } },
  Mailing: ALL,
  Reminder: ALL,
  WellWord: ANEW,
  Standing: ANEW,
  FleetTally: ANEW,
  DueItem: ANEW,
  FittedItem: ANEW,
  Matter: ANEW,
  Passkey: WAY_IN,
  ResetCode: WAY_IN,
  Session: WAY_IN,
  Account: WAY_IN,
  Verification: WAY_IN,
}

export type WholeTable = { name: string; without: Readonly<Record<string, string>> }

/** The tables that leave, by name. */
export const tablesTaken = (): WholeTable[] =>
  Object.entries(WHOLE_TABLES).flatMap(([name, taken]) =>
    'without' in taken ? [{ name, without: taken.without }] : [],
  )

/** The tables that do not, each with its reason. */
export const tablesLeft = (): { name: string; why: string }[] =>
  Object.entries(WHOLE_TABLES).flatMap(([name, taken]) => ('not' in taken ? [{ name, why: taken.not }] : []))

/** Rows read at a time, so that no statement stays open while the reader waits for the network. */
const PAGE = 500

/**
 * The rows of a table in the order of their making, a page at a time. Who wrote an owner's line is named as pages of the
 * outfit name them, so that a name which somebody typed and which was forgotten since does not leave.
 * Throws NotAllowed unless the viewer may export and manage people.
 */
export function* rowsOfTable(
  db: Db,
  viewer: Viewer,
  { name, without }: WholeTable,
): Generator<Record<string, unknown>[]> {
  demandWhole(viewer)
  let after = 0
  for (;;) {
    const page = prepared<Record<string, unknown> & { rowid_: number }>(
      db.sqlite,
      `SELECT rowid AS "rowid_", * FROM "${name}" WHERE rowid > ? ORDER BY rowid LIMIT ${PAGE}`,
    ).all(after)
    const last = page.at(-1)
    if (!last) return
    after = last.rowid_
    yield page.map(({ rowid_: _, ...row }) => {
      for (const column of Object.keys(without)) delete row[column]
      return name === 'Entry' ? entryAsShown(db, viewer, row as EntryRow) : row
    })
  }
}

/** Throws NotAllowed unless the viewer may take everything: the export of wells, and people with their addresses. */
export function demandWhole(viewer: Viewer): void {
  demandFleet(viewer, 'export.run')
  demandFleet(viewer, 'user.manage')
}

export type StoredFile = { id: string; stored: string; type: string; bytes: number; sha256: string }

/** Every attached file on record, by id. Throws as rowsOfTable. */
export function allStoredFiles(db: Db, viewer: Viewer): StoredFile[] {
  demandWhole(viewer)
  return prepared<StoredFile>(
    db.sqlite,
    'SELECT "id","stored","type","bytes","sha256" FROM "Attachment" ORDER BY "id"',
  ).all()
}

/** How many files there are and how many bytes they hold together. Throws as rowsOfTable. */
export function storedFilesSize(db: Db, viewer: Viewer): { count: number; bytes: number } {
  demandWhole(viewer)
  const found = prepared<{ count: number; bytes: number | null }>(
    db.sqlite,
    'SELECT COUNT(*) AS "count", SUM("bytes") AS "bytes" FROM "Attachment"',
  ).get()
  return { count: found?.count ?? 0, bytes: found?.bytes ?? 0 }
}
