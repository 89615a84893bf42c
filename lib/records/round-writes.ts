import type Database from 'better-sqlite3'
import { demandFleet, mayFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { Day } from '@/lib/domain/quantity/day'
import { writeChange } from './changes'
import type { Db } from './db'
import { contentId } from './ids'
import { changeOfRound, openRound, type RoundWrite } from './round-change'
import {
  insertStop,
  reckonedIds,
  type StopWish,
  storedStops,
  storeOrder,
  wellToVisit,
  withCheapest,
} from './round-stops'
import { prepared } from './statements'
import { transaction } from './transaction'
import { getYard } from './yard'

/** What a person says of a round beside its stops. */
export type RoundFields = {
  name: string
  day: Day
  startAt: string
  endAt: string
  assignedTo: string | null
  notes: string | null
}

export type RoundWish = RoundFields & { stops: readonly StopWish[] }

/**
 * Stores planned rounds, one a day, each in the order reckoned from the yard. `planId` comes with the form: the same
 * plan sent twice stores once; `batchId` is the import that they belong to. Wells that no round can go to are left out. Answers the rounds' ids.
 * Throws  NotAllowed unless the viewer may plan.
 */
export async function createRounds(
  db: Db,
  viewer: Viewer,
  planId: string,
  wishes: readonly RoundWish[],
  at: string,
  batchId: string | null = null,
): Promise<string[]> {
  demandFleet(viewer, 'round.plan')
  const setting = getYard(db)
  return transaction(db, () =>
    wishes.map((wish) => {
      const { sqlite } = db
      const id = contentId(planId, wish.day)
      if (prepared(sqlite, 'SELECT 1 FROM "Round" WHERE "id" = ?').get(id)) return id
      prepared(
        sqlite,
        `INSERT INTO "Round" ("id","name","day","startAt","endAt","yardLat","yardLon","roadFactor","speedKmH",
         "assignedTo","notes","createdAt","batchId") VALUES (?,?,?,?,?,?,?,?,?,?,?,?,?)`,
      ).run(
        id,
        wish.name,
        wish.day,
        wish.startAt,
        wish.endAt,
        setting.yard?.latitude ?? null,
        setting.yard?.longitude ?? null,
        setting.roadFactor,
        setting.speedKmH,
        knownDriver(sqlite, wish.assignedTo),
        wish.notes,
        at,
        batchId,
      )
      const wells = [...new Map(wish.stops.map((stop) => [stop.wellId, stop])).values()]
      wells.forEach((stop, i) => {
        const well = wellToVisit(sqlite, stop.wellId)
        if (well) insertStop(sqlite, { id, day: wish.day }, i + 1, well, stop, setting)
      })
      const round = openRound(sqlite, id)
      if (round) storeOrder(sqlite, reckonedIds(round, storedStops(sqlite, id)))
      writeChange(sqlite, viewer, at, {
        action: 'round planned',
        targetKind: 'round',
        targetId: id,
        after: wish,
      })
      return id
    }),
  )
}

/** Changes what is said of a round. Throws NotAllowed unless the viewer may plan. */
export function changeRound(
  db: Db,
  viewer: Viewer,
  roundId: string,
  version: number,
  fields: RoundFields,
  at: string,
): Promise<RoundWrite> {
  demandFleet(viewer, 'round.plan')
  return changeOfRound(db, viewer, roundId, version, 'round changed', at, (sqlite, round) => {
    prepared(
      sqlite,
      'UPDATE "Round" SET "name" = ?, "day" = ?, "startAt" = ?, "endAt" = ?, "assignedTo" = ?, "notes" = ? WHERE "id" = ?',
    ).run(
      fields.name,
      fields.day,
      fields.startAt,
      fields.endAt,
      knownDriver(sqlite, fields.assignedTo),
      fields.notes,
      round.id,
    )
    return { before: round, after: fields }
  })
}

/** Puts a well on a round, where it costs least. Throws NotAllowed unless the viewer may plan. */
export function addStop(
  db: Db,
  viewer: Viewer,
  roundId: string,
  version: number,
  wish: StopWish,
  at: string,
): Promise<RoundWrite> {
  demandFleet(viewer, 'round.plan')
  return changeOfRound(db, viewer, roundId, version, 'stop added', at, (sqlite, round) => {
    const well = wellToVisit(sqlite, wish.wellId)
    const stops = storedStops(sqlite, round.id)
    if (!well) return 'This well is retired or not in the register.'
    if (stops.some((stop) => stop.wellId === well.id)) return `${well.label} is on this round already.`
    const id = insertStop(sqlite, round, stops.length + 1, well, wish, getYard(db))
    storeOrder(sqlite, withCheapest(round, storedStops(sqlite, round.id), id))
    return { after: wish }
  })
}

/** Takes an open stop off a round. Throws NotAllowed unless the viewer may plan. */
export function removeStop(
  db: Db,
  viewer: Viewer,
  roundId: string,
  version: number,
  stopId: string,
  at: string,
): Promise<RoundWrite> {
  demandFleet(viewer, 'round.plan')
  return changeOfRound(db, viewer, roundId, version, 'stop taken off', at, (sqlite, round) => {
    const stops = storedStops(sqlite, round.id)
    const stop = stops.find((one) => one.id === stopId)
    if (!stop) return 'This stop is not on the round any more.'
    if (stop.outcome !== null) return 'This stop is closed: what happened there stays on the round.'
    prepared(sqlite, 'DELETE FROM "Stop" WHERE "id" = ?').run(stopId)
    storeOrder(
      sqlite,
      stops.filter((one) => one.id !== stopId).map((one) => one.id),
    )
    return { before: { wellId: stop.wellId, duties: stop.duties } }
  })
}

/** Throws a round away that nobody has driven. Throws NotAllowed unless the viewer may plan. */
export async function deleteRound(db: Db, viewer: Viewer, roundId: string, at: string): Promise<RoundWrite> {
  demandFleet(viewer, 'round.plan')
  return transaction(db, () => {
    const round = openRound(db.sqlite, roundId)
    if (!round) return { kind: 'no-such-round' }
    const driven = storedStops(db.sqlite, roundId).some((stop) => stop.outcome !== null)
    if (driven || round.status !== 'planned') {
      return { kind: 'refused', message: 'This round has been on the road: close it instead.' }
    }
    prepared(db.sqlite, 'DELETE FROM "Stop" WHERE "roundId" = ?').run(roundId)
    prepared(db.sqlite, 'DELETE FROM "Round" WHERE "id" = ?').run(roundId)
    writeChange(db.sqlite, viewer, at, {
      action: 'round thrown away',
      targetKind: 'round',
      targetId: roundId,
      before: round,
    })
    return { kind: 'stored' }
  })
}

/** Sends a planned round out, or closes it. Stops that are open then stay due, and say so. */
export async function setRoundStatus(
  db: Db,
  viewer: Viewer,
  roundId: string,
  status: 'out' | 'closed',
  at: string,
): Promise<RoundWrite> {
  if (!mayFleet(viewer, 'round.work')) return { kind: 'no-such-round' }
  return transaction(db, () => {
    const round = openRound(db.sqlite, roundId)
    if (!round) return { kind: 'no-such-round' }
    if (round.status === status) return { kind: 'stored' }
    const instant = status === 'out' ? 'outAt' : 'closedAt'
    prepared(
      db.sqlite,
      `UPDATE "Round" SET "status" = ?, "${instant}" = ?, "version" = "version" + 1 WHERE "id" = ?`,
    ).run(status, at, roundId)
    writeChange(db.sqlite, viewer, at, {
      action: status === 'out' ? 'round sent out' : 'round closed',
      targetKind: 'round',
      targetId: roundId,
    })
    return { kind: 'stored' }
  })
}

/**
 * Stores another order of the stops: `ids` names every stop of the round once. `locked` are those that a new reckoning
 * leaves in place. Technicians may: whoever drives knows the road.
 */
export async function reorderRound(
  db: Db,
  viewer: Viewer,
  roundId: string,
  version: number,
  ids: readonly string[],
  locked: ReadonlySet<string>,
  at: string,
): Promise<RoundWrite> {
  if (!mayFleet(viewer, 'round.work')) return { kind: 'no-such-round' }
  return changeOfRound(db, viewer, roundId, version, 'round ordered', at, (sqlite, round) => {
    const stops = storedStops(sqlite, round.id)
    const known = new Set(stops.map((stop) => stop.id))
    if (ids.length !== known.size || !ids.every((id) => known.has(id)) || new Set(ids).size !== ids.length) {
      return 'The stops of this round have changed. Look at it anew and move the stop again.'
    }
    storeOrder(sqlite, ids)
    const lock = prepared(sqlite, 'UPDATE "Stop" SET "locked" = ? WHERE "id" = ?')
    for (const id of ids) lock.run(locked.has(id) ? 1 : 0, id)
    return { before: stops.map((stop) => stop.id), after: ids }
  })
}

/** Owners drive no rounds, and a person who was taken out drives none either. */
function knownDriver(sqlite: Database.Database, userId: string | null): string | null {
  if (userId === null) return null
  const row = prepared<{ id: string }>(
    sqlite,
    'SELECT "id" FROM "User" WHERE "id" = ? AND "role" <> \'owner\' AND "disabled" = 0',
  ).get(userId)
  return row?.id ?? null
}

/** Who can drive a round: installers and technicians who can sign in. Throws NotAllowed for an owner. */
export function drivers(db: Db, viewer: Viewer): { id: string; name: string }[] {
  demandFleet(viewer, 'round.see')
  return prepared<{ id: string; name: string }>(
    db.sqlite,
    'SELECT "id","name" FROM "User" WHERE "role" <> \'owner\' AND "disabled" = 0 ORDER BY "name"',
  ).all()
}
