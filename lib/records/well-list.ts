import type Database from 'better-sqlite3'
import { reach } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { Day } from '@/lib/domain/quantity/day'
import type { YieldCause } from '@/lib/domain/yield/decline/types'
import type { Db } from './db'
import { ofHouseholds } from './of-households'
import { NO_DAY } from './standings'
import { prepared } from './statements'
import { keyOf } from './well-fields'
import { visibleWell } from './wells'

export type WellListRow = {
  id: string
  label: string
  labelKey: string
  name: string | null
  ownerName: string | null
  area: string | null
  retiredOn: Day | null
  lastVisitOn: Day | null
  nextDueOn: Day | null
  nextDuty: string | null
  /** The open chain after a positive that matters most, and since when. */
  chain: string | null
  chainOn: Day | null
  /** What its yield does; null where nothing was reckoned yet. */
  yield: { cause: YieldCause; flag: boolean } | null
}

type StoredRow = Omit<WellListRow, 'yield'> & { cause: YieldCause | null; losing: 0 | 1 | null }

export type WellListFilter = { search?: string; area?: string; ownerId?: string; retired?: boolean }

const SELECT = `SELECT w."id", w."label", w."labelKey", w."name", o."name" AS "ownerName", w."area", w."retiredOn",
  s."lastVisitOn", s."chain", s."chainOn", s."cause", s."losing",
  (SELECT d."dueOn" FROM "DueItem" d WHERE d."wellId" = w."id" ORDER BY d."dueOn", d."rank" LIMIT 1) AS "nextDueOn",
  (SELECT d."dutyName" FROM "DueItem" d WHERE d."wellId" = w."id" ORDER BY d."dueOn", d."rank" LIMIT 1) AS "nextDuty"
  FROM "Well" w LEFT JOIN "Owner" o ON o."id" = w."ownerId" LEFT JOIN "Standing" s ON s."wellId" = w."id"`

/** Up to this many hits of the rarest word are gathered and sorted; beyond, the list is walked in order. */
const GATHER_MAX = 2000

/**
 * One page of the wells list in order of label. Each word searched must be the beginning of a
 * word of the label, name, owner or area. `after` is the labelKey of the last row before.
 */
export function wellList(
  db: Db,
  viewer: Viewer,
  filter: WellListFilter,
  after: string | null,
  limit: number,
): { rows: WellListRow[]; next: string | null } {
  const scope = reach(viewer, 'well.see')
  if (scope.kind === 'none') return { rows: [], next: null }
  const where = ['w."struck" = 0', filter.retired ? 'w."retiredOn" IS NOT NULL' : 'w."retiredOn" IS NULL']
  const values: (string | number)[] = []
  const add = (condition: string, ...more: (string | number)[]) => {
    where.push(condition)
    values.push(...more)
  }
  if (scope.kind === 'own') {
    const own = ofHouseholds('w."ownerId"', scope.ownerIds)
    add(own.sql, ...own.values)
  }
  if (filter.area !== undefined) add('w."area" = ?', filter.area)
  if (filter.ownerId !== undefined) add('w."ownerId" = ?', filter.ownerId)
  if (after !== null) add('w."labelKey" > ?', after)

  const words = keyOf(filter.search ?? '')
    .split(/[^\p{L}\p{N}]+/u)
    .filter(Boolean)
    .slice(0, 6)
  const hits = words
    .map((word) => ({ word, count: countHits(db.sqlite, word) }))
    .sort((a, b) => a.count - b.count)
  const rarest = hits[0]
  if (rarest && rarest.count <= GATHER_MAX) {
    add(
      'w."id" IN (SELECT "wellId" FROM "WellWord" WHERE "word" >= ? AND "word" < ?)',
      ...prefixRange(rarest.word),
    )
  }
  for (const { word } of rarest && rarest.count <= GATHER_MAX ? hits.slice(1) : hits) {
    add(
      'EXISTS (SELECT 1 FROM "WellWord" x WHERE x."wellId" = w."id" AND x."word" >= ? AND x."word" < ?)',
      ...prefixRange(word),
    )
  }
  const rows = prepared<StoredRow>(
    db.sqlite,
    `${SELECT} WHERE ${where.join(' AND ')} ORDER BY w."labelKey" LIMIT ?`,
  ).all(...values, limit + 1)
  const page = rows.slice(0, limit).map(rowOf)
  return { rows: page, next: rows.length > limit ? (page.at(-1)?.labelKey ?? null) : null }
}

function rowOf({ cause, losing, ...row }: StoredRow): WellListRow {
  return {
    ...row,
    nextDueOn: row.nextDueOn === NO_DAY ? null : row.nextDueOn,
    yield: cause && { cause, flag: losing === 1 },
  }
}

/** Whether there is any well at all that the viewer may see: an empty list then teaches how to begin. */
export function hasWells(db: Db, viewer: Viewer): boolean {
  return (
    wellList(db, viewer, {}, null, 1).rows.length > 0 ||
    wellList(db, viewer, { retired: true }, null, 1).rows.length > 0
  )
}

function countHits(sqlite: Database.Database, word: string): number {
  return (
    prepared<{ n: number }>(
      sqlite,
      `SELECT COUNT(*) AS n FROM (SELECT 1 FROM "WellWord" WHERE "word" >= ? AND "word" < ? LIMIT ${GATHER_MAX + 1})`,
    ).get(...prefixRange(word))?.n ?? 0
  )
}

/** Every word that begins so: from the word itself to before the word with the last possible letter after it. */
function prefixRange(word: string): [string, string] {
  const cut = word.slice(0, 40)
  return [cut, `${cut}\u{10ffff}`]
}

/** One step of work in bulk reaches this many wells. */
export const WELLS_AT_ONCE = 2000

/**
 * The wells for a step in bulk, in order of label: those of the ids that the viewer may see, or all that a filter
 * finds. `more` where the filter finds more than one step serves.
 */
export function wellsForBulk(
  db: Db,
  viewer: Viewer,
  chosen: WellListFilter | readonly string[],
): { ids: string[]; labels: string[]; more: boolean } {
  if (!isIds(chosen)) {
    const { rows, next } = wellList(db, viewer, chosen, null, WELLS_AT_ONCE)
    return { ids: rows.map((row) => row.id), labels: rows.map((row) => row.label), more: next !== null }
  }
  const wells = [...new Set(chosen)].flatMap((id) => visibleWell(db, viewer, id) ?? [])
  wells.sort((a, b) => (a.labelKey < b.labelKey ? -1 : 1))
  return { ids: wells.map((well) => well.id), labels: wells.map((well) => well.label), more: false }
}

function isIds(chosen: WellListFilter | readonly string[]): chosen is readonly string[] {
  return Array.isArray(chosen)
}
