import { reach } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { Matter } from '@/lib/domain/logbook/owner-matters'
import type { Db } from './db'
import { prepared } from './statements'
import { visibleWell } from './wells'

export type MatterKind = Matter['kind']
/** One open matter with the well it is about. */
export type MatterRow = {
  wellId: string
  label: string
  wellName: string | null
  ownerName: string | null
  /** Who wrote it, by their account as it is now; null where they were forgotten or have none. */
  personName: string | null
  /** False where that person does not belong to the household that holds the well now: it was sold, or they left. */
  ofThisHousehold: boolean
  matter: Matter
}

const SELECT = `SELECT m."wellId", m."payload", w."label", w."name" AS "wellName", o."name" AS "ownerName", m."later", m."onDay", m."id",
  u."name" AS "personName",
  EXISTS (SELECT 1 FROM "Membership" b WHERE b."userId" = u."id" AND b."ownerId" = m."ownerId" AND b."until" IS NULL) AS "ofThisHousehold"
  FROM "Matter" m JOIN "Well" w ON w."id" = m."wellId" LEFT JOIN "Owner" o ON o."id" = m."ownerId"
  LEFT JOIN "Entry" e ON e."id" = m."id" LEFT JOIN "User" u ON u."id" = e."authorId"
  WHERE w."struck" = 0 AND w."retiredOn" IS NULL`

type Stored = Omit<MatterRow, 'matter' | 'ofThisHousehold'> & {
  ofThisHousehold: 0 | 1
  payload: string
  later: number
  onDay: string
  id: string
}

/**
 * One page of what is open across the fleet, urgent first and then the oldest. `after` is the `next` of the page before.
 * Nobody but the office has such a list; for others it is empty.
 */
export function openAcrossFleet(
  db: Db,
  viewer: Viewer,
  kind: MatterKind,
  after: string | null,
  limit: number,
): { rows: MatterRow[]; next: string | null } {
  if (reach(viewer, 'fleet.see').kind !== 'all') return { rows: [], next: null }
  const from = readCursor(after)
  const rows = prepared<Stored>(
    db.sqlite,
    `${SELECT} AND m."kind" = ? AND (m."later", m."onDay", m."id") > (?, ?, ?) ORDER BY m."later", m."onDay", m."id" LIMIT ?`,
  ).all(kind, from.later, from.onDay, from.id, limit + 1)
  const page = rows.slice(0, limit)
  const last = page.at(-1)
  return {
    rows: page.map(rowOf),
    next: rows.length > limit && last ? `${last.later}~${last.onDay}~${last.id}` : null,
  }
}

/** How many are open, counted up to a thousand. */
export function openCount(db: Db, viewer: Viewer, kind: MatterKind): number {
  if (reach(viewer, 'fleet.see').kind !== 'all') return 0
  const row = prepared<{ n: number }>(
    db.sqlite,
    'SELECT COUNT(*) AS n FROM (SELECT 1 FROM "Matter" WHERE "kind" = ? LIMIT 1000)',
  ).get(kind)
  return row?.n ?? 0
}

/** Everything open at one well, urgent first and then the oldest; nothing where this viewer has no such well. */
export function openAtWell(db: Db, viewer: Viewer, wellId: string): MatterRow[] {
  if (!visibleWell(db, viewer, wellId)) return []
  return prepared<Stored>(db.sqlite, `${SELECT} AND m."wellId" = ? ORDER BY m."later", m."onDay", m."id"`)
    .all(wellId)
    .map(rowOf)
}

/** What is open about one line of a well; null where it is settled, or this viewer has no such well. */
export function openMatterOf(db: Db, viewer: Viewer, wellId: string, entryId: string): Matter | null {
  if (!visibleWell(db, viewer, wellId)) return null
  const row = prepared<{ payload: string }>(
    db.sqlite,
    'SELECT "payload" FROM "Matter" WHERE "id" = ? AND "wellId" = ?',
  ).get(entryId, wellId)
  return row ? (JSON.parse(row.payload) as Matter) : null
}

const rowOf = ({ payload, ofThisHousehold, ...row }: Stored): MatterRow => ({
  wellId: row.wellId,
  label: row.label,
  wellName: row.wellName,
  ownerName: row.ownerName,
  personName: row.personName,
  ofThisHousehold: ofThisHousehold === 1,
  // Written by putMatters of this edition only: start-up rebuilds every older one.
  matter: JSON.parse(payload) as Matter,
})

/** A cursor that somebody has tampered with starts at the beginning. */
function readCursor(text: string | null): { later: number; onDay: string; id: string } {
  const [, later, onDay, id] = /^([01])~(\d{4}-\d{2}-\d{2})~([0-9a-f-]{36})$/.exec(text ?? '') ?? []
  return later && onDay && id ? { later: Number(later), onDay, id } : { later: -1, onDay: '', id: '' }
}
