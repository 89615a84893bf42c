import { demandFleet, reach } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { type LatLon, lineBetween, type MapPoint, type MapStatus } from '@/lib/domain/place'
import type { Day } from '@/lib/domain/quantity/day'
import type { Db } from './db'
import { URGENCIES, urgencyRange } from './due-list'
import { NO_DAY } from './standings'
import { prepared } from './statements'

/** One well of the map's list. A well without a coordinate stands in the list alone. */
export type MapWell = {
  id: string
  label: string
  name: string | null
  area: string | null
  latitude: number | null
  longitude: number | null
  status: MapStatus
  dueOn: Day | null
  dutyName: string | null
  /** From the point that the list is ordered by, m; null without one, or without a coordinate. */
  awayM: number | null
}

export type MapFilter = { area?: string; status?: MapStatus; wells?: readonly string[]; from?: LatLon }

type Row = Omit<MapWell, 'status' | 'awayM' | 'dueOn' | 'dutyName'> & { next: string | null }

/** A day is ten letters long: what is due next goes as one text, so that it is looked up once a well, in one index. */
const DAY_LETTERS = 10

const SELECT = `SELECT w."id", w."label", w."name", w."area", w."latitude", w."longitude",
  (SELECT d."dueOn" || d."dutyName" FROM "DueItem" d WHERE d."wellId" = w."id" ORDER BY d."dueOn", d."rank" LIMIT 1) AS "next"
  FROM "Well" w WHERE w."struck" = 0 AND w."retiredOn" IS NULL`

/** Wells with an open chain, out of an index alone: a standing's row lies behind its long text. */
const WARNED = 'SELECT "wellId" FROM "Standing" WHERE "chain" IS NOT NULL'

/** A link that names more wells than this has been tampered with; a round has some dozens. */
const CHOSEN_MAX = 500

/**
 * The wells of the map and its list, in order of distance from `from`, else of label. Throws NotAllowed unless the
 * viewer may see the fleet. Cost: one row a well in use.
 */
export function mapWells(db: Db, viewer: Viewer, today: Day, filter: MapFilter): MapWell[] {
  demandFleet(viewer, 'fleet.see')
  if (reach(viewer, 'well.see').kind !== 'all') return []
  const chosen = filter.wells?.slice(0, CHOSEN_MAX)
  const where = [
    ...(filter.area === undefined ? [] : ['w."area" = ?']),
    ...(chosen ? [`w."id" IN (${chosen.map(() => '?').join(',')})`] : []),
  ]
  const rows = prepared<Row>(
    db.sqlite,
    `${SELECT}${where.map((one) => ` AND ${one}`).join('')} ORDER BY w."labelKey"`,
  ).all(...(filter.area === undefined ? [] : [filter.area]), ...(chosen ?? []))
  const warned = new Set(
    prepared<{ wellId: string }>(db.sqlite, WARNED)
      .all()
      .map((row) => row.wellId),
  )
  const wells = rows.map((row) => asWell(row, warned.has(row.id), today, filter.from ?? null))
  const shown = filter.status === undefined ? wells : wells.filter((well) => well.status === filter.status)
  return filter.from ? shown.sort((a, b) => (a.awayM ?? Infinity) - (b.awayM ?? Infinity)) : shown
}

function asWell({ next, ...row }: Row, warned: boolean, today: Day, from: LatLon | null): MapWell {
  const { latitude, longitude } = row
  const dueOn = next?.slice(0, DAY_LETTERS) ?? NO_DAY
  const known = next !== null && dueOn !== NO_DAY
  return {
    ...row,
    status: statusOf(warned, known ? dueOn : null, today),
    dueOn: known ? dueOn : null,
    dutyName: known ? next.slice(DAY_LETTERS) : null,
    awayM:
      from && latitude !== null && longitude !== null
        ? lineBetween(from, { latitude, longitude }).distanceM
        : null,
  }
}

function statusOf(warned: boolean, dueOn: Day | null, today: Day): MapStatus {
  if (warned) return 'warning'
  if (dueOn === null) return 'unknown'
  const within = URGENCIES.find((urgency) => {
    const { from, to } = urgencyRange(urgency, today)
    return dueOn >= from && dueOn <= to
  })
  return within ?? 'unknown'
}

/** What the map needs of a well, and nothing more. */
export function mapPoints(wells: readonly MapWell[]): MapPoint[] {
  return wells.flatMap(({ id, label, status, latitude, longitude }) =>
    latitude === null || longitude === null ? [] : [{ id, label, status, latitude, longitude }],
  )
}

/** The areas that wells in use lie in. */
export function mapAreas(db: Db, viewer: Viewer): string[] {
  demandFleet(viewer, 'fleet.see')
  return prepared<{ area: string }>(
    db.sqlite,
    'SELECT DISTINCT "area" FROM "Well" WHERE "struck" = 0 AND "retiredOn" IS NULL AND "area" IS NOT NULL ORDER BY "area"',
  )
    .all()
    .map((row) => row.area)
}
