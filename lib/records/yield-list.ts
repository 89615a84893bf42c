import { mayFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { Standing } from '@/lib/domain/logbook/appraise'
import type { YieldSummary } from '@/lib/domain/logbook/yield-summary'
import { callsByBand } from '@/lib/domain/yield/decline/fleet'
import type { YieldCause } from '@/lib/domain/yield/decline/types'
import type { Db } from './db'
import { COUNT_MAX } from './due-list'
import { reckonSettings } from './reckon-settings'
import { prepared } from './statements'

const CAUSES = ['well', 'water-table', 'pump', 'steady', 'unclear'] as const satisfies readonly YieldCause[]

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

const BY_ID = `SELECT s."wellId", w."label", w."name" AS "wellName", o."name" AS "ownerName", s."area", s."suspicion",
  s."payload" FROM "Standing" s JOIN "Well" w ON w."id" = s."wellId" LEFT JOIN "Owner" o ON o."id" = w."ownerId"
  WHERE s."wellId" = ?`

type Position = { suspicion: number; wellId: string }

/**
 * One page of the fleet by how likely each well is losing capacity, likeliest first. `cursor` is the `next` of the
 * page before, null for the first. Nothing for who may not see the fleet. Costs a page under every filter: each
 * stretch is read off an index in its order, and the stretches are merged.
 */
export function yieldPage(
  db: Db,
  viewer: Viewer,
  filter: YieldFilter,
  cursor: string | null,
  limit: number,
): YieldPage {
  if (!mayFleet(viewer, 'fleet.see')) return { rows: [], next: null }
  const after = readCursor(cursor)
  const places = stretchesOf(filter)
    .flatMap((stretch) => readStretch(db, stretch, after, limit + 1))
    .sort((a, b) => b.suspicion - a.suspicion || (a.wellId < b.wellId ? 1 : -1))
  const page = places.slice(0, limit)
  const last = page.at(-1)
  return {
    rows: page.flatMap(({ wellId }) => rowOf(db, wellId) ?? []),
    next: places.length > limit && last ? `${last.suspicion}~${last.wellId}` : null,
  }
}

type Stretch = { area?: string; cause?: YieldCause; losing?: 0 | 1 }

/** What one filter asks for, in pieces that each lie in one piece of an index. */
function stretchesOf({ area, cause, called }: YieldFilter): Stretch[] {
  const inArea = area === undefined ? {} : { area }
  if (cause !== undefined) {
    const losing = called ? ([1] as const) : ([0, 1] as const)
    return losing.map((each) => ({ ...inArea, cause, losing: each }))
  }
  if (!called) return [inArea]
  return area === undefined ? [{ losing: 1 }] : CAUSES.map((each) => ({ area, cause: each, losing: 1 }))
}

function readStretch(db: Db, stretch: Stretch, after: Position | null, limit: number): Position[] {
  const columns = Object.keys(stretch).map((column) => ` AND "${column}" = ?`)
  const position = after ? ' AND ("suspicion", "wellId") < (?, ?)' : ''
  return prepared<Position>(
    db.sqlite,
    `SELECT "suspicion", "wellId" FROM "Standing" WHERE "listed" = 1${columns.join('')}${position}
     ORDER BY "suspicion" DESC, "wellId" DESC LIMIT ?`,
  ).all(...Object.values(stretch), ...(after ? [after.suspicion, after.wellId] : []), limit)
}

function rowOf(db: Db, wellId: string): YieldRow | null {
  const stored = prepared<Omit<YieldRow, 'yield'> & { payload: string }>(db.sqlite, BY_ID).get(wellId)
  if (!stored) return null
  const { payload, ...row } = stored
  // Written by storeStanding of this edition only: start-up rebuilds every older one.
  return { ...row, yield: (JSON.parse(payload) as Standing).yield }
}

/** A cursor that nobody handed out starts at the beginning; it can reach nothing it should not. */
function readCursor(text: string | null): Position | null {
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

/**
 * Which calls hold for the fleet as a whole at the false-alarm share in force. All zero for who may not see it. Read off
 * the tally of the fleet and the odds near the bar, so that it does not cost a fleet.
 */
export function fleetCalls(db: Db, viewer: Viewer): FleetCalls {
  const share = reckonSettings(db.sqlite).settings.falseAlarmShare
  if (!mayFleet(viewer, 'fleet.see')) return { listed: 0, flagged: 0, held: 0, leastOdds: null, share }
  const tally = prepared<{ band: number; n: number }>(
    db.sqlite,
    'SELECT "band", "n" FROM "FleetTally" WHERE "n" > 0',
  ).all()
  const bands = tally.filter(({ band }) => band > 0)
  const listed = total(tally)
  const calls = callsByBand(bands, listed, share, (band) =>
    prepared<{ odds: number }>(db.sqlite, 'SELECT "odds" FROM "Standing" WHERE "band" = ?')
      .all(band)
      .map(({ odds }) => odds),
  )
  return { listed, flagged: total(bands), ...calls, share }
}

const total = (tally: readonly { n: number }[]) => tally.reduce((sum, { n }) => sum + n, 0)

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
