import { reach } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { Standing } from '@/lib/domain/logbook/appraise'
import type { WaterSummary } from '@/lib/domain/logbook/water-summary'
import type { Day } from '@/lib/domain/quantity/day'
import { freshFrom } from '@/lib/domain/water/standing-words'
import type { Db } from './db'
import { COUNT_MAX } from './due-list'
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

type StoredRow = Omit<WaterRow, 'water'> & { payload: string; at: string; rank: number }

const SELECT = `w."id" AS "wellId", w."label", w."name" AS "wellName", o."name" AS "ownerName", w."area", s."payload"
  FROM "Standing" s JOIN "Well" w ON w."id" = s."wellId" LEFT JOIN "Owner" o ON o."id" = w."ownerId"`

/** The stretches of a group, in the order in which they are read: each lies in one piece of an index. */
type Stretch = { where: string; at: 's."sampledOn"' | 's."chainOn"' | "''" }

const STRETCHES: Readonly<Record<Exclude<WaterGroup, 'stale' | 'meets'>, readonly Stretch[]>> = {
  // Bacteria before nitrate before all else, in each the longest open first.
  chain: [
    { where: `s."listed" = 1 AND s."chain" = 'bacteria'`, at: 's."chainOn"' },
    { where: `s."listed" = 1 AND s."chain" = 'nitrate'`, at: 's."chainOn"' },
    {
      where: `s."listed" = 1 AND s."chain" IS NOT NULL AND s."chain" NOT IN ('bacteria', 'nitrate')`,
      at: 's."chainOn"',
    },
  ],
  exceeds: [verdict('exceeds')],
  inconclusive: [verdict('inconclusive')],
  gaps: [{ ...verdict('not-tested'), where: `${verdict('not-tested').where} AND s."sampledOn" IS NOT NULL` }],
  never: [{ where: `${verdict('not-tested').where} AND s."sampledOn" IS NULL`, at: "''" }],
}

/** The pieces of a group as seen from `today`: what met its limits speaks for a well for a time only. */
function stretchesOf(group: WaterGroup, today: Day): readonly Stretch[] {
  if (group !== 'stale' && group !== 'meets') return STRETCHES[group]
  const met = verdict('meets')
  return [
    {
      ...met,
      where: `${met.where} AND s."sampledOn" ${group === 'stale' ? '<' : '>='} '${freshFrom(today)}'`,
    },
  ]
}

function verdict(word: WaterSummary['verdict']): Stretch {
  return { where: `s."listed" = 1 AND s."water" = '${word}' AND s."chain" IS NULL`, at: 's."sampledOn"' }
}

/**
 * One page of one group, the longest ago first. `cursor` is the `next` of the page before, null for the first.
 * Costs a page at any fleet size: each stretch is read off an index.
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
  const rows: StoredRow[] = []
  stretchesOf(group, today).forEach((stretch, rank) => {
    if (rows.length > limit || (after && rank < after.rank)) return
    const from = after?.rank === rank ? after : null
    rows.push(...readStretch(db, stretch, rank, scope, from, limit + 1 - rows.length))
  })
  const page = rows.slice(0, limit)
  const last = page.at(-1)
  return {
    rows: page.map(({ payload, at: _, rank: __, ...row }) => ({ ...row, water: summaryOf(payload) })),
    next: rows.length > limit && last ? `${last.rank}~${last.at}~${last.wellId}` : null,
  }
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
      ({ where }) =>
        prepared<{ n: number }>(
          db.sqlite,
          `SELECT COUNT(*) AS n FROM (SELECT 1 FROM "Standing" s ${scope.join} WHERE ${where}${scope.where} LIMIT ${COUNT_MAX})`,
        ).get(...scope.values)?.n ?? 0,
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

function readStretch(
  db: Db,
  { where, at }: Stretch,
  rank: number,
  scope: Scope,
  from: Position | null,
  limit: number,
): StoredRow[] {
  const position = from ? ` AND (${at}, s."wellId") > (?, ?)` : ''
  const order = at === "''" ? 's."wellId"' : `${at}, s."wellId"`
  return prepared<StoredRow>(
    db.sqlite,
    `SELECT ${at} AS "at", ${rank} AS "rank", ${SELECT}
     WHERE ${where}${scope.where}${position} ORDER BY ${order} LIMIT ?`,
  ).all(...scope.values, ...(from ? [from.at, from.wellId] : []), limit)
}

type Scope = { join: string; where: string; values: string[] }

/** The part of WHERE that says which wells the viewer may see and the filter asks for; null for none at all. */
function scopeOf(viewer: Viewer, filter: WaterFilter): Scope | null {
  const scope = reach(viewer, 'well.see')
  if (scope.kind === 'none') return null
  const conditions: string[] = []
  const values: string[] = []
  const equal = (column: string, value: string | undefined) => {
    if (value === undefined) return
    conditions.push(` AND w."${column}" = ?`)
    values.push(value)
  }
  if (scope.kind === 'own') equal('ownerId', scope.ownerId)
  equal('ownerId', filter.ownerId)
  equal('area', filter.area)
  const join = conditions.length > 0 ? 'JOIN "Well" w ON w."id" = s."wellId"' : ''
  return { join, where: conditions.join(''), values }
}

/** Written by storeStanding of this edition only: start-up rebuilds every older one. */
const summaryOf = (payload: string): WaterSummary => (JSON.parse(payload) as Standing).water

/** A cursor that somebody has tampered with starts at the beginning; it can reach nothing it should not. */
function readCursor(text: string | null): (Position & { rank: number }) | null {
  const match = /^([0-2])~((?:\d{4}-\d{2}-\d{2})?)~([0-9a-f-]{36})$/.exec(text ?? '')
  const [, rank, at, wellId] = match ?? []
  return rank !== undefined && at !== undefined && wellId !== undefined
    ? { rank: Number(rank), at: at as Day, wellId }
    : null
}
