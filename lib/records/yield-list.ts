import { mayFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { Standing } from '@/lib/domain/logbook/appraise'
import type { YieldSummary } from '@/lib/domain/logbook/yield-summary'
import { leastOddsCalled } from '@/lib/domain/yield/decline/fleet'
import type { YieldCause } from '@/lib/domain/yield/decline/types'
import type { Db } from './db'
import { COUNT_MAX } from './due-list'
import { reckonSettings } from './reckon-settings'
import { prepared } from './statements'

export type YieldFilter = {
  area?: string
  cause?: YieldCause
  /** Only wells whose own readings pass the bar for calling a loss. */
  called?: boolean
}

export type YieldRow = {
  wellId: string
  label: string
  wellName: string | null
  ownerName: string | null
  area: string | null
  suspicion: number
  yield: YieldSummary
}

export type YieldPage = { rows: YieldRow[]; next: string | null }

type StoredRow = Omit<YieldRow, 'yield'> & { payload: string }

const SELECT = `SELECT s."wellId", w."label", w."name" AS "wellName", o."name" AS "ownerName", s."area", s."suspicion",
  s."payload" FROM "Standing" s JOIN "Well" w ON w."id" = s."wellId" LEFT JOIN "Owner" o ON o."id" = w."ownerId"`

/**
 * One page of the fleet by how likely each well is losing capacity, likeliest first. `cursor` is the `next` of the
 * page before, null for the first. Nothing for who may not see the fleet. Costs a page: read off an index.
 */
export function yieldPage(
  db: Db,
  viewer: Viewer,
  filter: YieldFilter,
  cursor: string | null,
  limit: number,
): YieldPage {
  if (!mayFleet(viewer, 'fleet.see')) return { rows: [], next: null }
  const where = ['s."listed" = 1']
  const values: (string | number)[] = []
  const add = (condition: string, ...more: (string | number)[]) => {
    where.push(condition)
    values.push(...more)
  }
  if (filter.area !== undefined) add('s."area" = ?', filter.area)
  if (filter.cause !== undefined) add('s."cause" = ?', filter.cause)
  if (filter.called) add('s."losing" = 1')
  const after = readCursor(cursor)
  if (after) add('(s."suspicion", s."wellId") < (?, ?)', after.suspicion, after.wellId)
  const stored = prepared<StoredRow>(
    db.sqlite,
    `${SELECT} WHERE ${where.join(' AND ')} ORDER BY s."suspicion" DESC, s."wellId" DESC LIMIT ?`,
  ).all(...values, limit + 1)
  const rows = stored.slice(0, limit).map(rowOf)
  const last = rows.at(-1)
  return { rows, next: stored.length > limit && last ? `${last.suspicion}~${last.wellId}` : null }
}

function rowOf({ payload, ...row }: StoredRow): YieldRow {
  // Written by storeStanding of this edition only: start-up rebuilds every older one.
  return { ...row, yield: (JSON.parse(payload) as Standing).yield }
}

/** A cursor that nobody handed out starts at the beginning; it can reach nothing it should not. */
function readCursor(text: string | null): { suspicion: number; wellId: string } | null {
  const [, suspicion, wellId] = /^([\d.e-]{1,30})~([0-9a-f-]{36})$/.exec(text ?? '') ?? []
  return wellId && Number.isFinite(Number(suspicion)) ? { suspicion: Number(suspicion), wellId } : null
}

/** What is called over the fleet as a whole. */
export type FleetCalls = {
  /** Wells in use. */
  listed: number
  /** Wells whose own readings pass the bar. */
  flagged: number
  /** Those of them whose call holds for the fleet as a whole: with odds of at least `leastOdds`. */
  held: number
  leastOdds: number | null
  /** The share of false calls that was asked for. */
  share: number
}

/** Which calls hold for the fleet as a whole at the false-alarm share in force. All zero for who may not see it. */
export function fleetCalls(db: Db, viewer: Viewer): FleetCalls {
  const share = reckonSettings(db.sqlite).settings.falseAlarmShare
  if (!mayFleet(viewer, 'fleet.see')) return { listed: 0, flagged: 0, held: 0, leastOdds: null, share }
  const listed =
    prepared<{ n: number }>(db.sqlite, 'SELECT COUNT(*) AS n FROM "Standing" WHERE "listed" = 1').get()?.n ??
    0
  const odds = prepared<{ odds: number }>(
    db.sqlite,
    'SELECT "odds" FROM "Standing" WHERE "listed" = 1 AND "losing" = 1',
  )
    .all()
    .map((row) => row.odds)
  const leastOdds = leastOddsCalled(odds, listed, share)
  const held = leastOdds === null ? 0 : odds.filter((one) => one >= leastOdds).length
  return { listed, flagged: odds.length, held, leastOdds, share }
}

/** How many wells in use have each cause, counted up to COUNT_MAX. */
export function causeCounts(db: Db, viewer: Viewer): Record<YieldCause, number> {
  const may = mayFleet(viewer, 'fleet.see')
  const count = (cause: YieldCause) =>
    may
      ? (prepared<{ n: number }>(
          db.sqlite,
          `SELECT COUNT(*) AS n FROM (SELECT 1 FROM "Standing" WHERE "listed" = 1 AND "cause" = ? LIMIT ${COUNT_MAX})`,
        ).get(cause)?.n ?? 0)
      : 0
  return {
    well: count('well'),
    'water-table': count('water-table'),
    pump: count('pump'),
    steady: count('steady'),
    unclear: count('unclear'),
  }
}
