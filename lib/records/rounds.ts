import { demandFleet, mayFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { StopOutcome } from '@/lib/domain/place'
import type { Day } from '@/lib/domain/quantity/day'
import type { Db } from './db'
import { countedStops, ROUND_SELECT, type RoundHead, roundHeadOf, type StoredRound } from './round-rows'
import { prepared } from './statements'
import { type RoundStop, STOP_SELECT, type StoredStop, stopOf } from './stop-rows'
import { openChains } from './well-water'

export type { RoundHead, RoundStatus } from './round-rows'
export type { RoundStop } from './stop-rows'

export type RoundPage = { round: RoundHead; stops: RoundStop[] }

/** One round with its stops in order; null when there is none for this viewer. */
export function roundPage(db: Db, viewer: Viewer, roundId: string): RoundPage | null {
  if (!mayFleet(viewer, 'round.see')) return null
  const row = prepared<StoredRound>(db.sqlite, `${ROUND_SELECT} AND r."id" = ?`).get(roundId)
  if (!row) return null
  const stops = prepared<StoredStop>(
    db.sqlite,
    `${STOP_SELECT} AND s."roundId" = ? ORDER BY s."position", s."id"`,
  ).all(roundId)
  return {
    round: roundHeadOf(row),
    // Stops without a place come last: no timetable has them, and every place in the order is then one of it.
    stops: [...stops.filter(hasPlace), ...stops.filter((stop) => !hasPlace(stop))].map((stop, i) => ({
      ...stopOf(stop, openChains(db, viewer, stop.wellId)),
      position: i + 1,
    })),
  }
}

const hasPlace = (stop: StoredStop) => stop.latitude !== null && stop.longitude !== null

/** One stop with its round; null when there is none for this viewer. */
export function stopPage(
  db: Db,
  viewer: Viewer,
  stopId: string,
): { round: RoundHead; stop: RoundStop } | null {
  if (!mayFleet(viewer, 'round.see')) return null
  const row = prepared<StoredStop>(db.sqlite, `${STOP_SELECT} AND s."id" = ?`).get(stopId)
  if (!row) return null
  const round = prepared<StoredRound>(db.sqlite, `${ROUND_SELECT} AND r."id" = ?`).get(row.roundId)
  if (!round) return null
  return { round: roundHeadOf(round), stop: stopOf(row, openChains(db, viewer, row.wellId)) }
}

/** A round in a list, with how its stops stand. */
export type RoundLine = RoundHead & { stops: number; closed: number } & Record<StopOutcome, number>

const LIST_MAX = 200

/**
 * The rounds of one status: those to come by day, those closed the newest first, at most 200. Throws NotAllowed for
 * an owner.
 */
export function roundsOf(db: Db, viewer: Viewer, status: RoundHead['status'], from?: Day): RoundLine[] {
  demandFleet(viewer, 'round.see')
  const order = status === 'closed' ? 'DESC' : 'ASC'
  return prepared<StoredRound>(
    db.sqlite,
    `${ROUND_SELECT} AND r."status" = ? AND r."day" >= ? ORDER BY r."day" ${order}, r."id" LIMIT ${LIST_MAX}`,
  )
    .all(status, from ?? '')
    .map((row) => ({ ...roundHeadOf(row), ...countedStops(db.sqlite, row.id) }))
}

/** The rounds of a day that are not closed and that this person drives, or that nobody was named for. */
export function roundsToDrive(db: Db, viewer: Viewer, day: Day): RoundLine[] {
  if (!mayFleet(viewer, 'round.see')) return []
  return prepared<StoredRound>(
    db.sqlite,
    `${ROUND_SELECT} AND r."status" <> 'closed' AND (r."status" = 'out' OR r."day" = ?)
     AND (r."assignedTo" IS NULL OR r."assignedTo" = ?) ORDER BY r."day", r."id" LIMIT 10`,
  )
    .all(day, viewer.userId)
    .map((row) => ({ ...roundHeadOf(row), ...countedStops(db.sqlite, row.id) }))
}

/** Rounds read at a time for an export. */
const PAGE = 100

/** Every round with its stops, by day. Throws NotAllowed unless the viewer may export. */
export function* everyRound(db: Db, viewer: Viewer): Generator<RoundPage> {
  demandFleet(viewer, 'export.run')
  let after = { day: '', id: '' }
  for (;;) {
    const rows = prepared<{ id: string; day: string }>(
      db.sqlite,
      `SELECT r."id", r."day" FROM "Round" r LEFT JOIN "Batch" b ON b."id" = r."batchId"
       WHERE b."undoneAt" IS NULL AND (r."day", r."id") > (?, ?) ORDER BY r."day", r."id" LIMIT ${PAGE}`,
    ).all(after.day, after.id)
    for (const { id } of rows) {
      const page = roundPage(db, viewer, id)
      if (page) yield page
    }
    const last = rows.at(-1)
    if (!last) return
    after = last
  }
}
