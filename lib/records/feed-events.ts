import { reach } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { EDITION } from '@/lib/domain/logbook/appraise'
import { addDays, type Day } from '@/lib/domain/quantity/day'
import type { Db } from './db'
import { contentId } from './ids'
import { ofHouseholds } from './of-households'
import { prepared } from './statements'

/** One due item as a calendar shows it: which well and what, and nothing of where it lies or what a test found. */
export type FeedEvent = {
  /** Stays the same for one turn of a due item, however its date moves. */
  uid: string
  on: Day
  title: string
  note: string
  /** Rises whenever anything was written that its date may rest on. */
  sequence: number
  /** ISO instant of the last change. */
  changedAt: string
}

const BEHIND_DAYS = 366
const AHEAD_DAYS = 550
const EVENTS_MAX = 2000

type Row = {
  itemId: string
  dueOn: Day
  lastDoneOn: Day | null
  dutyName: string
  label: string
  wellName: string | null
  chain: string | null
  entries: number
  versions: number
  settings: number
  changedAt: string | null
}

const SELECT = `SELECT d."id" AS "itemId", d."dueOn", d."lastDoneOn", d."dutyName", w."label", w."name" AS "wellName",
  s."chain", s."settings", w."version" + COALESCE(u."version", 0) AS "versions",
  (SELECT COUNT(*) FROM "Entry" e WHERE e."wellId" = w."id") AS "entries",
  (SELECT MAX(c."at") FROM "Change" c WHERE c."wellId" = w."id") AS "changedAt"
  FROM "DueItem" d JOIN "Well" w ON w."id" = d."wellId" LEFT JOIN "Duty" u ON u."id" = d."id"
  LEFT JOIN "Standing" s ON s."wellId" = w."id"
  WHERE w."struck" = 0 AND w."retiredOn" IS NULL AND d."dueOn" BETWEEN ? AND ?`

/**
 * What a person's calendar shows, by date: an owner's own wells, the office's all, from a year back to a year and a half
 * ahead. `at` stamps what has no change on record.
 */
export function feedEvents(db: Db, viewer: Viewer, today: Day, at: string): FeedEvent[] {
  const scope = reach(viewer, 'well.see')
  if (scope.kind === 'none') return []
  const own =
    scope.kind === 'own' ? ofHouseholds('w."ownerId"', scope.ownerIds) : { sql: '1 = 1', values: [] }
  return prepared<Row>(db.sqlite, `${SELECT} AND ${own.sql} ORDER BY d."dueOn", d."id" LIMIT ${EVENTS_MAX}`)
    .all(addDays(today, -BEHIND_DAYS), addDays(today, AHEAD_DAYS), ...own.values)
    .map((row) => ({
      uid: contentId('feed', row.itemId, row.lastDoneOn ?? ''),
      on: row.dueOn,
      title: `${row.wellName ?? row.label}: ${row.dutyName}`,
      note: row.chain === null ? '' : 'There is a warning for this well. Open Wellround.',
      // Each part of the sum only ever rises: lines are never taken out of a logbook, versions and editions count up.
      sequence: row.entries + row.versions + row.settings + EDITION,
      changedAt: row.changedAt ?? at,
    }))
}
