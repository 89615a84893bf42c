import type Database from 'better-sqlite3'
import type { Driving, LatLon, StopOutcome } from '@/lib/domain/place'
import type { Day } from '@/lib/domain/quantity/day'
import type { Round as RoundRow } from './generated/client'
import { prepared } from './statements'

export const ROUND_STATUSES = ['planned', 'out', 'closed'] as const
export type RoundStatus = (typeof ROUND_STATUSES)[number]

/** A round without its stops. Times of day as HH:MM, instants as ISO text. */
export type RoundHead = {
  id: string
  name: string
  day: Day
  startAt: string
  endAt: string
  yard: LatLon | null
  driving: Driving
  assignedTo: { id: string; name: string } | null
  status: RoundStatus
  notes: string | null
  createdAt: string
  outAt: string | null
  closedAt: string | null
  version: number
}

export type StoredRound = RoundRow & { assignedName: string | null }

/** Rounds of imports that were taken back are not there. Goes on with AND. */
export const ROUND_SELECT = `SELECT r.*, u."name" AS "assignedName" FROM "Round" r
  LEFT JOIN "User" u ON u."id" = r."assignedTo" LEFT JOIN "Batch" b ON b."id" = r."batchId"
  WHERE b."undoneAt" IS NULL`

/** Throws on a status that the writes of this folder never store. */
export function roundHeadOf(row: StoredRound): RoundHead {
  const status = ROUND_STATUSES.find((known) => known === row.status)
  if (!status) throw new Error(`a round has the status "${row.status}"`)
  return {
    id: row.id,
    name: row.name,
    day: row.day,
    startAt: row.startAt,
    endAt: row.endAt,
    yard:
      row.yardLat !== null && row.yardLon !== null ? { latitude: row.yardLat, longitude: row.yardLon } : null,
    driving: { roadFactor: row.roadFactor, speedKmH: row.speedKmH },
    assignedTo: row.assignedTo === null ? null : { id: row.assignedTo, name: row.assignedName ?? 'somebody' },
    status,
    notes: row.notes,
    createdAt: row.createdAt,
    outAt: row.outAt,
    closedAt: row.closedAt,
    version: row.version,
  }
}

/** How many stops a round has, and how many ended how. */
export function countedStops(
  sqlite: Database.Database,
  roundId: string,
): { stops: number; closed: number } & Record<StopOutcome, number> {
  const counts = { stops: 0, closed: 0, done: 0, partly: 0, 'not-found': 0, 'no-access': 0 }
  const rows = prepared<{ outcome: StopOutcome | null; n: number }>(
    sqlite,
    `SELECT s."outcome", COUNT(*) AS n FROM "Stop" s JOIN "Well" w ON w."id" = s."wellId"
     WHERE s."roundId" = ? AND w."struck" = 0 GROUP BY s."outcome"`,
  ).all(roundId)
  for (const { outcome, n } of rows) {
    counts.stops += n
    if (outcome === null) continue
    counts.closed += n
    counts[outcome] += n
  }
  return counts
}
