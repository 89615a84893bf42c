import { reach } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { isSampling } from '@/lib/domain/logbook/water-due'
import { addDays, type Day } from '@/lib/domain/quantity/day'
import type { Db } from './db'
import { COUNT_MAX, DUE_SELECT, type DueRow, dueFacets } from './due-list'
import { ofHouseholds } from './of-households'
import { prepared } from './statements'
import type { WaterFilter } from './water-fleet'

/** So many days ahead a sample is told as due: bottles are fetched and a visit is planned. */
const AHEAD_DAYS = 30

const RANKS = [1, 2, 3] as const

/**
 * One page of the sampling duties that are past due or fall due within thirty days, by date, over every area and owner asked
 * for. Costs a page at any fleet size: each kind of duty is read off an index.
 */
export function samplesDue(
  db: Db,
  viewer: Viewer,
  today: Day,
  filter: WaterFilter,
  cursor: string | null,
  limit: number,
): { rows: DueRow[]; next: string | null } {
  const after = readCursor(cursor)
  // From the index alone: the rows of a page are fetched one by one, so that no planner trades the index for another.
  const places = stretches(db, viewer, filter, ({ where, values }) =>
    prepared<Place>(
      db.sqlite,
      `SELECT d."dueOn", d."id" FROM "DueItem" d WHERE ${where} AND (d."dueOn", d."id") > (?, ?) AND d."dueOn" <= ?
       ORDER BY d."dueOn", d."id" LIMIT ?`,
    ).all(...values, after.dueOn, after.id, addDays(today, AHEAD_DAYS), limit + 1),
  ).flat()
  places.sort((a, b) => compare(a.dueOn, b.dueOn) || compare(a.id, b.id))
  const page = places.slice(0, limit)
  const last = page.at(-1)
  const row = prepared<DueRow>(db.sqlite, `${DUE_SELECT} WHERE d."id" = ?`)
  return {
    rows: page.flatMap(({ id }) => row.get(id) ?? []),
    next: places.length > limit && last ? `${last.dueOn}~${last.id}` : null,
  }
}

type Place = { dueOn: string; id: string }

/** How many they are, counted up to COUNT_MAX. */
export function samplesDueCount(db: Db, viewer: Viewer, today: Day, filter: WaterFilter): number {
  const counts = stretches(
    db,
    viewer,
    filter,
    ({ where, values }) =>
      prepared<{ n: number }>(
        db.sqlite,
        `SELECT COUNT(*) AS n FROM (SELECT 1 FROM "DueItem" d WHERE ${where} AND d."dueOn" <= ? LIMIT ${COUNT_MAX})`,
      ).get(...values, addDays(today, AHEAD_DAYS))?.n ?? 0,
  )
  return Math.min(
    COUNT_MAX,
    counts.reduce((sum, n) => sum + n, 0),
  )
}

type Part = { where: string; values: (string | number)[] }

/** Asks once for each sampling duty and consequence: each is one piece of the index by duty. */
function stretches<T>(db: Db, viewer: Viewer, filter: WaterFilter, ask: (part: Part) => T): T[] {
  const scope = reach(viewer, 'well.see')
  if (scope.kind === 'none') return []
  const conditions: string[] = []
  const values: string[] = []
  const equal = (column: string, value: string | undefined) => {
    if (value === undefined) return
    conditions.push(` AND d."${column}" = ?`)
    values.push(value)
  }
  if (scope.kind === 'own') {
    const own = ofHouseholds('d."ownerId"', scope.ownerIds)
    conditions.push(` AND ${own.sql}`)
    values.push(...own.values)
  }
  equal('ownerId', filter.ownerId)
  equal('area', filter.area)
  const sampling = dueFacets(db, viewer).duties.filter(({ key }) => isSampling(key))
  return sampling.flatMap(({ key }) =>
    RANKS.map((rank) =>
      ask({
        where: `d."dutyKey" = ? AND d."rank" = ?${conditions.join('')}`,
        values: [key, rank, ...values],
      }),
    ),
  )
}

const compare = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0)

/** A cursor that somebody has tampered with starts at the beginning. */
function readCursor(text: string | null): Place {
  const [, dueOn, id] = /^(\d{4}-\d{2}-\d{2})~([0-9a-f-]{36})$/.exec(text ?? '') ?? []
  return dueOn && id ? { dueOn, id } : { dueOn: '0000-01-01', id: '' }
}
