import type Database from 'better-sqlite3'
import { reach } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { addDays, type Day } from '@/lib/domain/quantity/day'
import type { Consequence } from '@/lib/domain/upkeep/types'
import type { Db } from './db'
import { ofHouseholds } from './of-households'
import { NO_DAY } from './standings'
import { prepared } from './statements'

export const URGENCIES = ['past', 'week', 'month', 'later', 'unknown'] as const
export type Urgency = (typeof URGENCIES)[number]

export type DueFilter = {
  dutyKey?: string
  ownerId?: string
  area?: string
  consequence?: Consequence
  /** Due on or after, on or before. */
  from?: Day
  to?: Day
}

export type DueRow = {
  id: string
  wellId: string
  label: string
  wellName: string | null
  ownerName: string | null
  area: string | null
  dutyKey: string
  dutyName: string
  rank: number
  /** Null where nothing is known yet. */
  dueOn: Day | null
  basis: string | null
  fromOn: Day | null
  toOn: Day | null
  reason: string
  lastDoneOn: Day | null
  /** The open chain of the well that matters most, and since when. */
  chain: string | null
  chainOn: Day | null
}

export type DuePage = { rows: DueRow[]; next: string | null }

/** Counting stops here: past a thousand, nobody reads the last digits, and every fleet pays the same. */
export const COUNT_MAX = 1000

const RANK: Record<Consequence, number> = { health: 1, supply: 2, wear: 3 }
const RANKS = [1, 2, 3] as const

/** The first and last due day of a group of urgency, as seen from `today`. */
export function urgencyRange(urgency: Urgency, today: Day): { from: string; to: string } {
  switch (urgency) {
    case 'past':
      return { from: '0000-01-01', to: addDays(today, -1) }
    case 'week':
      return { from: today, to: addDays(today, 7) }
    case 'month':
      return { from: addDays(today, 8), to: addDays(today, 30) }
    case 'later':
      return { from: addDays(today, 31), to: '9999-12-30' }
    case 'unknown':
      return { from: NO_DAY, to: NO_DAY }
  }
}

/**
 * One page of one group of the due list. Past due comes by consequence and then the longest
 * past; the others by date. `cursor` is the `next` of the page before, null for the first.
 * Costs a page at any fleet size: each stretch is read off an index.
 */
export function duePage(
  db: Db,
  viewer: Viewer,
  today: Day,
  urgency: Urgency,
  filter: DueFilter,
  cursor: string | null,
  limit: number,
): DuePage {
  const scope = scopeOf(viewer, filter)
  if (!scope) return { rows: [], next: null }
  const range = narrowed(urgencyRange(urgency, today), filter)
  const after = readCursor(cursor)
  const ranks = filter.consequence ? [RANK[filter.consequence]] : RANKS
  const rows: DueRow[] = []
  for (const rank of ranks) {
    if (urgency === 'past' && rows.length > limit) break
    rows.push(...stretch(db.sqlite, scope, rank, range, positionIn(urgency, rank, after), limit + 1))
  }
  if (urgency !== 'past') rows.sort(byDate)
  const page = rows.slice(0, limit)
  const last = page.at(-1)
  return { rows: page, next: rows.length > limit && last ? writeCursor(last) : null }
}

/** How many items each group holds, counted up to COUNT_MAX. */
export function dueCounts(db: Db, viewer: Viewer, today: Day, filter: DueFilter): Record<Urgency, number> {
  const scope = scopeOf(viewer, filter)
  const count = (urgency: Urgency) => {
    if (!scope) return 0
    const range = narrowed(urgencyRange(urgency, today), filter)
    const rank = filter.consequence ? ` AND d."rank" = ${RANK[filter.consequence]}` : ''
    return (
      prepared<{ n: number }>(
        db.sqlite,
        `SELECT COUNT(*) AS n FROM (SELECT 1 FROM "DueItem" d WHERE ${scope.where}${rank} AND d."dueOn" BETWEEN ? AND ? LIMIT ${COUNT_MAX})`,
      ).get(...scope.values, range.from, range.to)?.n ?? 0
    )
  }
  return {
    past: count('past'),
    week: count('week'),
    month: count('month'),
    later: count('later'),
    unknown: count('unknown'),
  }
}

/** The due items of chosen ids that the viewer may see, by well, for a printed sheet. */
export function dueItems(db: Db, viewer: Viewer, ids: readonly string[]): DueRow[] {
  const scope = scopeOf(viewer, {})
  if (!scope) return []
  const one = prepared<DueRow>(db.sqlite, `${DUE_SELECT} WHERE ${scope.where} AND d."id" = ?`)
  return ids
    .flatMap((id) => one.all(...scope.values, id).map(withoutNoDay))
    .sort((a, b) => compare(a.label, b.label) || a.rank - b.rank || compare(a.dutyName, b.dutyName))
}

/** What the filter of the due list offers: duties, areas and owners that have something due. */
export function dueFacets(
  db: Db,
  viewer: Viewer,
): { duties: { key: string; name: string }[]; areas: string[]; owners: { id: string; name: string }[] } {
  if (reach(viewer, 'fleet.see').kind !== 'all') return { duties: [], areas: [], owners: [] }
  return {
    duties: skipScan(db.sqlite, 'DueItem', 'dutyKey', 200).map((key) => ({
      key,
      name:
        prepared<{ dutyName: string }>(
          db.sqlite,
          'SELECT "dutyName" FROM "DueItem" WHERE "dutyKey" = ? LIMIT 1',
        ).get(key)?.dutyName ?? key,
    })),
    areas: skipScan(db.sqlite, 'Well', 'area', 200),
    owners: prepared<{ id: string; name: string }>(
      db.sqlite,
      'SELECT "id","name" FROM "Owner" ORDER BY "nameKey" LIMIT 200',
    ).all(),
  }
}

/** The keys of all duties on the due list. The caller has asked whether the viewer may see the fleet. */
export const dutyKeysDue = (db: Db): string[] => skipScan(db.sqlite, 'DueItem', 'dutyKey', 1000)

/** Distinct values of an indexed column, one index step a value instead of a scan of the table. */
function skipScan(
  sqlite: Database.Database,
  table: 'DueItem' | 'Well',
  column: 'dutyKey' | 'area',
  limit: number,
): string[] {
  return prepared<{ v: string }>(
    sqlite,
    `WITH RECURSIVE step(v) AS (
       SELECT MIN("${column}") FROM "${table}"
       UNION ALL SELECT (SELECT MIN("${column}") FROM "${table}" WHERE "${column}" > step.v) FROM step WHERE step.v IS NOT NULL
     ) SELECT v FROM step WHERE v IS NOT NULL LIMIT ${limit}`,
  )
    .all()
    .map((row) => row.v)
}

type Scope = { where: string; values: string[] }

/** The part of WHERE that says which items the viewer may see and the filter asks for; null for none at all. */
function scopeOf(viewer: Viewer, filter: DueFilter): Scope | null {
  const scope = reach(viewer, 'well.see')
  if (scope.kind === 'none') return null
  const where = ['1 = 1']
  const values: string[] = []
  const equal = (column: string, value: string | undefined) => {
    if (value === undefined) return
    where.push(`d."${column}" = ?`)
    values.push(value)
  }
  if (scope.kind === 'own') {
    const own = ofHouseholds('d."ownerId"', scope.ownerIds)
    where.push(own.sql)
    values.push(...own.values)
  }
  equal('dutyKey', filter.dutyKey)
  equal('ownerId', filter.ownerId)
  equal('area', filter.area)
  return { where: where.join(' AND '), values }
}

export const DUE_SELECT = `SELECT d."id", d."wellId", w."label", w."name" AS "wellName", o."name" AS "ownerName", d."area",
  d."dutyKey", d."dutyName", d."rank", d."dueOn", d."basis", d."fromOn", d."toOn", d."reason", d."lastDoneOn",
  s."chain", s."chainOn"
  FROM "DueItem" d JOIN "Well" w ON w."id" = d."wellId" LEFT JOIN "Owner" o ON o."id" = d."ownerId"
  LEFT JOIN "Standing" s ON s."wellId" = d."wellId"`

type Position = { dueOn: string; id: string }
type Cursor = Position & { rank: number }

function stretch(
  sqlite: Database.Database,
  scope: Scope,
  rank: number,
  range: { from: string; to: string },
  after: Position | 'start' | 'none',
  limit: number,
): DueRow[] {
  if (after === 'none') return []
  const position = after === 'start' ? { dueOn: range.from, id: '' } : after
  return prepared<DueRow>(
    sqlite,
    `${DUE_SELECT} WHERE ${scope.where} AND d."rank" = ? AND d."dueOn" >= ? AND d."dueOn" <= ?
     AND (d."dueOn" > ? OR d."id" > ?) ORDER BY d."dueOn", d."id" LIMIT ?`,
  )
    .all(...scope.values, rank, position.dueOn, range.to, position.dueOn, position.id, limit)
    .map(withoutNoDay)
}

/** Where the stretch of one rank goes on after the cursor: the groups differ in their order. */
function positionIn(urgency: Urgency, rank: number, after: Cursor | null): Position | 'start' | 'none' {
  if (!after) return 'start'
  if (rank === after.rank) return after
  if (urgency === 'past') return rank < after.rank ? 'none' : 'start'
  // By date, then rank: a later rank still owes its items of the cursor's own day.
  return rank < after.rank ? { dueOn: after.dueOn, id: '￿' } : { dueOn: after.dueOn, id: '' }
}

const byDate = (a: DueRow, b: DueRow) =>
  compare(a.dueOn ?? NO_DAY, b.dueOn ?? NO_DAY) || a.rank - b.rank || compare(a.id, b.id)

const compare = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0)

function withoutNoDay(row: DueRow): DueRow {
  return row.dueOn === NO_DAY ? { ...row, dueOn: null } : row
}

function narrowed(range: { from: string; to: string }, filter: DueFilter): { from: string; to: string } {
  return {
    from: filter.from && filter.from > range.from ? filter.from : range.from,
    to: filter.to && filter.to < range.to ? filter.to : range.to,
  }
}

function writeCursor(row: DueRow): string {
  return `${row.rank}~${row.dueOn ?? NO_DAY}~${row.id}`
}

/** A cursor that somebody has tampered with starts at the beginning; it can reach nothing it should not. */
function readCursor(text: string | null): Cursor | null {
  const match = /^([123])~(\d{4}-\d{2}-\d{2})~([0-9a-f-]{36})$/.exec(text ?? '')
  const [, rank, dueOn, id] = match ?? []
  return rank && dueOn && id ? { rank: Number(rank), dueOn, id } : null
}
