/** What the server's database says while a browser walks without signal. */
import Database from 'better-sqlite3'
import { attach } from '@/lib/records/attachments'
import type { Db } from '@/lib/records/db'
import { AT, TODAY } from './batch'
import { photo } from './hostile-files'
import { installer } from './viewers'

/** A photo of a mark of the place that the demo measured worst. */
export async function marksPhoto(db: Db): Promise<void> {
  const [entry] = db.sqlite
    .prepare(
      `SELECT e."id" FROM "Entry" e JOIN "Well" w ON w."id" = e."wellId"
       WHERE e."kind" = 'place-measured' AND w."name" LIKE '%camp kitchen%'`,
    )
    .pluck()
    .all()
  const outcome = await attach(db, installer, String(entry), { name: 'mark.jpg', bytes: await photo() }, AT)
  if (outcome.kind !== 'stored') throw new Error(outcome.kind)
}

/** A round with at least three stops that are open, and these. */
export function openRound(file: string): { id: string; stops: string[] } {
  const db = new Database(file, { readonly: true })
  const open = `SELECT "roundId" FROM "Stop" WHERE "outcome" IS NULL GROUP BY "roundId" HAVING COUNT(*) >= 3`
  const id = String(db.prepare(`${open} LIMIT 1`).pluck().get())
  const stops = db
    .prepare('SELECT "id" FROM "Stop" WHERE "roundId" = ? AND "outcome" IS NULL ORDER BY "position"')
    .pluck()
    .all(id)
  db.close()
  return { id, stops: stops.map(String) }
}
/** How a stop stands in the register. */
export function stopRow(
  file: string,
  id = '',
): { outcome: string | null; said: string | null; nextSteps: string } {
  const db = new Database(file, { readonly: true })
  const row = db.prepare('SELECT "outcome", "said", "nextSteps" FROM "Stop" WHERE "id" = ?').get(id)
  db.close()
  return row as { outcome: string | null; said: string | null; nextSteps: string }
}
/** How often a head was found today. */
export const foundIn = (file: string): number => {
  const db = new Database(file, { readonly: true })
  const count = db
    .prepare(`SELECT COUNT(*) FROM "Entry" WHERE "payload" LIKE '%"event":"found"%' AND "occurredOn" = ?`)
    .pluck()
    .get(TODAY)
  db.close()
  return Number(count)
}
/** The notes that the walk wrote and that have arrived. */
export const notesIn = (file: string): string[] => {
  const db = new Database(file, { readonly: true })
  const rows = db.prepare(`SELECT "payload" FROM "Entry" WHERE "payload" LIKE '%PHONE-%'`).pluck().all()
  db.close()
  return rows.map((row) => String(JSON.parse(String(row)).text)).sort()
}
/** How many photos of lids have arrived. */
export const photosIn = (file: string): number => {
  const db = new Database(file, { readonly: true })
  const count = Number(
    db.prepare('SELECT COUNT(*) FROM "Attachment" WHERE "name" LIKE \'lid%\'').pluck().get(),
  )
  db.close()
  return count
}
/** How many well tests have arrived. */
export const testsIn = (file: string): number =>
  count(file, `SELECT COUNT(*) FROM "Entry" WHERE "kind" IN ('recovery-test', 'drawdown-test', 'step-test')`)
/** How many lab sheets have arrived. */
export const samplesIn = (file: string): number =>
  count(file, `SELECT COUNT(*) FROM "Entry" WHERE "kind" = 'sample'`)

function count(file: string, sql: string): number {
  const db = new Database(file, { readonly: true })
  const found = Number(db.prepare(sql).pluck().get())
  db.close()
  return found
}
