import { reach } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { Standing } from '@/lib/domain/logbook/appraise'
import type { WaterPiece, WaterSummary } from '@/lib/domain/logbook/water-summary'
import { addDays, type Day } from '@/lib/domain/quantity/day'
import { freshFrom } from '@/lib/domain/water/standing-words'
import type { Db } from './db'
import { COUNT_MAX } from './due-list'
import { ofHouseholds } from './of-households'
import { prepared } from './statements'

/** How the water of a fleet stands: every well in use is in one group, the gravest first. */
export const WATER_GROUPS = ['chain', 'exceeds', 'inconclusive', 'gaps', 'never', 'stale', 'meets'] as const
export type WaterGroup = (typeof WATER_GROUPS)[number]

export type WaterFilter = { ownerId?: string; area?: string }

export type WaterRow = {
  wellId: string
  label: string
  wellName: string | null
  ownerName: string | null
  area: string | null
  water: WaterSummary
}

export type WaterPage = { rows: WaterRow[]; next: string | null }

const BY_ID = `SELECT w."id" AS "wellId", w."label", w."name" AS "wellName", o."name" AS "ownerName", w."area", s."payload"
  FROM "Standing" s JOIN "Well" w ON w."id" = s."wellId" LEFT JOIN "Owner" o ON o."id" = w."ownerId"
  WHERE s."wellId" = ?`

/** A stretch of a piece between two days, both counted in: each lies in one piece of an index, in its order. */
type Stretch = { piece: WaterPiece; from: string; to: string }

/** The pieces of a group in the order in which they are read: bacteria before nitrate before all else. */
const PIECES: Readonly<Record<Exclude<WaterGroup, 'stale' | 'meets'>, readonly WaterPiece[]>> = {
  chain: ['chain-bacteria', 'chain-nitrate', 'chain-other'],
  exceeds: ['exceeds'],
  inconclusive: ['inconclusive'],
  gaps: ['gaps'],
  never: ['never'],
}

/** Before and after every day that is stored. */
const FIRST = ''
const LAST = '9999-12-31'

/** The stretches of a group as seen from `today`: what met its limits speaks for a well for a time only. */
function stretchesOf(group: WaterGroup, today: Day): readonly Stretch[] {
  const fresh = freshFrom(today)
  if (group === 'stale') return [{ piece: 'met', from: FIRST, to: addDays(fresh, -1) }]
  if (group === 'meets') return [{ piece: 'met', from: fresh, to: LAST }]
  return PIECES[group].map((piece) => ({ piece, from: FIRST, to: LAST }))
}

/**
 * One page of one group, the longest ago first. `cursor` is the `next` of the page before, null for the first.
 * Costs a page at any fleet size and under every filter: each stretch is read off an index.
 */
export function waterPage(
  db: Db,
  viewer: Viewer,
  today: Day,
  group: WaterGroup,
  filter: WaterFilter,
  cursor: string | null,
  limit: number,
): WaterPage {
  const scope = scopeOf(viewer, filter)
  if (!scope) return { rows: [], next: null }
  const after = readCursor(cursor)
  const places: Place[] = []
  stretchesOf(group, today).forEach((stretch, rank) => {
    if (places.length > limit || (after && rank < after.rank)) return
    const from = after?.rank === rank ? after : null
    places.push(...readStretch(db, stretch, rank, scope, from, limit + 1 - places.length))
  })
  const page = places.slice(0, limit)
  const last = page.at(-1)
  return {
    rows: page.flatMap(({ wellId }) => rowOf(db, wellId) ?? []),
    next: places.length > limit && last ? `${last.rank}~${last.at}~${last.wellId}` : null,
  }
}

function rowOf(db: Db, wellId: string): WaterRow | null {
  const stored = prepared<Omit<WaterRow, 'water'> & { payload: string }>(db.sqlite, BY_ID).get(wellId)
  if (!stored) return null
  const { payload, ...row } = stored
  // Written by storeStanding of this edition only: start-up rebuilds every older one.
  return { ...row, water: (JSON.parse(payload) as Standing).water }
}

/** How many wells each group holds, counted up to COUNT_MAX. */
export function waterCounts(
  db: Db,
  viewer: Viewer,
  today: Day,
  filter: WaterFilter,
): Record<WaterGroup, number> {
  const scope = scopeOf(viewer, filter)
  const count = (group: WaterGroup): number => {
    if (!scope) return 0
    const counted = stretchesOf(group, today).map(
      ({ piece, from, to }) =>
        prepared<{ n: number }>(
          db.sqlite,
          `SELECT COUNT(*) AS n FROM (SELECT 1 FROM "Standing" s WHERE ${scope.where}s."waterGroup" = ?
           AND s."waterOn" >= ? AND s."waterOn" <= ? LIMIT ${COUNT_MAX})`,
        ).get(...scope.values, piece, from, to)?.n ?? 0,
    )
    return Math.min(
      COUNT_MAX,
      counted.reduce((sum, n) => sum + n, 0),
    )
  }
  return {
    chain: count('chain'),
    exceeds: count('exceeds'),
    inconclusive: count('inconclusive'),
    gaps: count('gaps'),
    never: count('never'),
    stale: count('stale'),
    meets: count('meets'),
  }
}

type Position = { at: string; wellId: string }
type Place = Position & { rank: number }

function readStretch(
  db: Db,
  { piece, from, to }: Stretch,
  rank: number,
  scope: Scope,
  after: Position | null,
  limit: number,
): Place[] {
  // A cursor from before the stretch, of yesterday or forged, begins where the stretch does.
  const start = after && after.at >= from ? after : { at: from, wellId: '' }
  return prepared<Place>(
    db.sqlite,
    // From the index alone: the rows of a page are fetched one by one, so that no planner trades the index for another.
    `SELECT s."waterOn" AS "at", s."wellId", ${rank} AS "rank" FROM "Standing" s WHERE ${scope.where}s."waterGroup" = ?
     AND (s."waterOn", s."wellId") > (?, ?) AND s."waterOn" <= ?
     ORDER BY s."waterOn", s."wellId" LIMIT ?`,
  ).all(...scope.values, piece, start.at, start.wellId, to, limit)
}

type Scope = { where: string; values: string[] }

/** The part of WHERE that says which wells the viewer may see and the filter asks for; null for none at all. */
function scopeOf(viewer: Viewer, filter: WaterFilter): Scope | null {
  const scope = reach(viewer, 'well.see')
  if (scope.kind === 'none') return null
  const conditions: string[] = []
  const values: string[] = []
  const equal = (column: 'ownerId' | 'area', value: string | undefined) => {
    if (value === undefined) return
    conditions.push(`s."${column}" = ? AND `)
    values.push(value)
  }
  if (scope.kind === 'own') {
    const own = ofHouseholds('s."ownerId"', scope.ownerIds)
    conditions.push(`${own.sql} AND `)
    values.push(...own.values)
  }
  equal('ownerId', filter.ownerId)
  equal('area', filter.area)
  return { where: conditions.join(''), values }
}

/** A cursor that somebody has tampered with starts at the beginning; it can reach nothing it should not. */
function readCursor(text: string | null): Place | null {
  const match = /^([0-2])~((?:\d{4}-\d{2}-\d{2})?)~([0-9a-f-]{36})$/.exec(text ?? '')
  const [, rank, at, wellId] = match ?? []
  return rank !== undefined && at !== undefined && wellId !== undefined
    ? { rank: Number(rank), at: at as Day, wellId }
    : null
}
