import type Database from 'better-sqlite3'
import {
  type DayFrame,
  type DayStop,
  moveStop,
  orderRound,
  type PlannedDuty,
  schedule,
  stopMinutes,
  timetable,
  type YardSetting,
} from '@/lib/domain/place'
import { addDays, type Day, formatDay } from '@/lib/domain/quantity'
import { consequenceOfRank } from '@/lib/domain/upkeep/rank'
import { newId } from './ids'
import type { WellRow } from './rows'
import { prepared } from './statements'
import { STOP_SELECT, type StoredStop, stopOf } from './stop-rows'

/** What a stop is planned with: the well, and the keys of its duties; null for what is due by a month after the round. */
export type StopWish = { wellId: string; dutyKeys: readonly string[] | null }

const BY_HAND_DAYS = 30

type DueRow = {
  dutyKey: string
  dutyName: string
  rank: number
  dueOn: string
  reason: string
  isDuty: 0 | 1
}

/** The well of that id if a round can go there: in the register, not taken out, not retired. */
export function wellToVisit(sqlite: Database.Database, wellId: string): WellRow | null {
  return (
    prepared<WellRow>(
      sqlite,
      'SELECT * FROM "Well" WHERE "id" = ? AND "struck" = 0 AND "retiredOn" IS NULL',
    ).get(wellId) ?? null
  )
}

/** Stores a stop at the end of a round, with the owner's hours and days of today. Call within a transaction. */
export function insertStop(
  sqlite: Database.Database,
  round: { id: string; day: Day },
  position: number,
  well: WellRow,
  wish: StopWish,
  setting: YardSetting,
): string {
  const id = newId()
  const duties =
    wish.dutyKeys === null
      ? dutiesBy(sqlite, well.id, round.day)
      : plannedDuties(sqlite, well.id, wish.dutyKeys)
  const why = [...leftBehind(sqlite, well.id), ...(wish.dutyKeys === null ? ['Added by hand.'] : [])]
  prepared(
    sqlite,
    `INSERT INTO "Stop" ("id","roundId","position","wellId","duties","why","minutes","notBefore","doneBy","onlyOn")
     VALUES (?,?,?,?,?,?,?,?,?,?)`,
  ).run(
    id,
    round.id,
    position,
    well.id,
    JSON.stringify(duties),
    JSON.stringify(why),
    stopMinutes(
      setting,
      duties.map((duty) => duty.key),
    ),
    well.visitFrom,
    well.visitUntil,
    well.visitDays,
  )
  return id
}

/** What is due at a well among the keys asked for. */
function plannedDuties(sqlite: Database.Database, wellId: string, keys: readonly string[]): PlannedDuty[] {
  return dueAt(sqlite, wellId, (item) => keys.includes(item.dutyKey))
}

/** What is due at a well by a month after the day of a round. */
function dutiesBy(sqlite: Database.Database, wellId: string, day: Day): PlannedDuty[] {
  const by = addDays(day, BY_HAND_DAYS)
  return dueAt(sqlite, wellId, (item) => item.dueOn <= by)
}

/** Items of the due list as duties of a stop, the weightiest first, each with its reason there. */
export function dueAt(
  sqlite: Database.Database,
  wellId: string,
  wanted: (item: DueRow) => boolean,
): PlannedDuty[] {
  return prepared<DueRow>(
    sqlite,
    `SELECT d."dutyKey", d."dutyName", d."rank", d."dueOn", d."reason", EXISTS (SELECT 1 FROM "Duty" u
     WHERE u."wellId" = d."wellId" AND u."key" = d."dutyKey" AND u."retired" = 0) AS "isDuty"
     FROM "DueItem" d WHERE d."wellId" = ? ORDER BY d."rank", d."dueOn"`,
  )
    .all(wellId)
    .filter(wanted)
    .map((item) => ({
      key: item.dutyKey,
      name: item.dutyName,
      consequence: consequenceOfRank(item.rank),
      why: item.reason.slice(0, 400),
      ticked: item.isDuty === 1,
    }))
}

/** What earlier stops at the well left to be seen to, as sentences. */
function leftBehind(sqlite: Database.Database, wellId: string): string[] {
  const stops = prepared<StoredStop>(
    sqlite,
    `${STOP_SELECT} AND s."wellId" = ? AND s."settledAt" IS NULL AND s."closedAt" IS NOT NULL ORDER BY s."closedAt"`,
  ).all(wellId)
  return stops
    .map((row) => stopOf(row, []))
    .flatMap(({ nextSteps, closedOn }) =>
      nextSteps
        .filter((step) => step.kind !== 'stays-due')
        .map(
          (step) =>
            `Left on ${closedOn === null ? 'an earlier stop' : formatDay(closedOn, 'short', 'en-GB')}: ${step.words}`,
        ),
    )
}

/** The stops of a round as they stand, with their places, in order. */
export function storedStops(sqlite: Database.Database, roundId: string) {
  return prepared<StoredStop>(sqlite, `${STOP_SELECT} AND s."roundId" = ? ORDER BY s."position", s."id"`)
    .all(roundId)
    .map((row) => stopOf(row, []))
}

/** Writes positions from 1 in the order of the ids. Call within a transaction. */
export function storeOrder(sqlite: Database.Database, ids: readonly string[]): void {
  const update = prepared(sqlite, 'UPDATE "Stop" SET "position" = ? WHERE "id" = ?')
  ids.forEach((id, i) => {
    update.run(i + 1, id)
  })
}

/** The ids in the reckoned order; those without a place come last, and all stay as they are where no yard is known. */
export function reckonedIds(frame: DayFrame, stops: readonly DayStop[]): string[] {
  const table = timetable(frame, stops)
  if (!table) return stops.map((stop) => stop.id)
  const order = orderRound(table.problem).order.flatMap((i) => table.routed[i]?.id ?? [])
  return [...order, ...table.unrouted.map((stop) => stop.id)]
}

/** The ids with one put where it costs least, the others in their order. */
export function withCheapest(frame: DayFrame, stops: readonly DayStop[], id: string): string[] {
  const table = timetable(frame, stops)
  const from = table?.routed.findIndex((stop) => stop.id === id) ?? -1
  if (!table || from < 0) return [...stops.filter((stop) => stop.id !== id).map((stop) => stop.id), id]
  const order = table.routed.map((_, i) => i)
  const tried = order.map((to) => {
    const moved = moveStop(order, from, to)
    const { lateS, travelS } = schedule(table.problem, moved)
    return { moved, lateS, travelS }
  })
  const best = tried.reduce((a, b) =>
    b.lateS < a.lateS || (b.lateS === a.lateS && b.travelS < a.travelS) ? b : a,
  )
  return [...best.moved.flatMap((i) => table.routed[i]?.id ?? []), ...table.unrouted.map((stop) => stop.id)]
}
