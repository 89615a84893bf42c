import type Database from 'better-sqlite3'
import { demandFleet, mayFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { dutyMinutes, type PlannedDuty, stopMinutes } from '@/lib/domain/place'
import type { Db } from './db'
import { changeOfRound, type RoundWrite } from './round-change'
import type { RoundHead } from './round-rows'
import { dueAt } from './round-stops'
import { stopPage } from './rounds'
import { prepared } from './statements'
import { type RoundStop, STOP_SELECT, type StoredStop, stopOf } from './stop-rows'
import { getYard } from './yard'

/** Something that can be planned at a stop: `planned` where it is, `minutes` as the outfit reckons with it. */
export type WorkChoice = PlannedDuty & { planned: boolean; minutes: number }

/** A stop with all that can be planned there; `reckoned` are the minutes of what is planned now, by the outfit's setting. */
export type StopWork = {
  round: RoundHead
  stop: RoundStop
  choices: WorkChoice[]
  setUpMinutes: number
  reckoned: number
}

/** The work of a stop as a person wants it. `minutes` null is reckoned from the duties. */
export type WorkWish = { keys: readonly string[]; minutes: number | null; note: string | null }

/** `changed-since` comes with the stop as it stands now. */
export type WorkWrite = Exclude<RoundWrite, { kind: 'changed-since' }> | { kind: 'clash'; stop: RoundStop }

/** One stop and what can be planned there; null where there is none on that round for a viewer who may plan. */
export function stopWork(db: Db, viewer: Viewer, roundId: string, stopId: string): StopWork | null {
  const found = mayFleet(viewer, 'round.plan') ? stopPage(db, viewer, stopId) : null
  if (!found || found.round.id !== roundId) return null
  const setting = getYard(db)
  const { round, stop } = found
  const planned = new Set(stop.duties.map((duty) => duty.key))
  return {
    round,
    stop,
    choices: offered(db.sqlite, stop).map((duty) => ({
      ...duty,
      planned: planned.has(duty.key),
      minutes: dutyMinutes(setting, duty.key),
    })),
    setUpMinutes: setting.setUpMinutes,
    reckoned: stopMinutes(setting, [...planned]),
  }
}

/**
 * Changes what is planned at an open stop: duties, minutes and note, in its place on the round. What stays planned
 * keeps the reason it was planned for. `version` is that of the stop as it was opened: moving it does not stand
 * against a change of its work.
 * Throws  NotAllowed unless the viewer may plan.
 */
export async function changeWork(
  db: Db,
  viewer: Viewer,
  roundId: string,
  stopId: string,
  version: number,
  wish: WorkWish,
  at: string,
): Promise<WorkWrite> {
  demandFleet(viewer, 'round.plan')
  let clash: RoundStop | null = null
  const written = await changeOfRound(db, viewer, roundId, null, 'stop planned anew', at, (sqlite) => {
    const row = prepared<StoredStop>(sqlite, `${STOP_SELECT} AND s."id" = ? AND s."roundId" = ?`).get(
      stopId,
      roundId,
    )
    if (!row) return 'This stop is not on the round any more.'
    const stop = stopOf(row, [])
    if (stop.outcome !== null) return 'This stop is closed: what happened there stays on the round.'
    if (stop.version !== version) {
      clash = stop
      return 'Somebody else changed this stop.'
    }
    const duties = offered(sqlite, stop).filter((duty) => wish.keys.includes(duty.key))
    if (duties.length < new Set(wish.keys).size) {
      return 'Something ticked is not due at this well any more. Open the page again to see what is.'
    }
    const minutes = wish.minutes ?? stopMinutes(getYard(db), wish.keys)
    prepared(
      sqlite,
      'UPDATE "Stop" SET "duties" = ?, "minutes" = ?, "note" = ?, "version" = "version" + 1 WHERE "id" = ?',
    ).run(JSON.stringify(duties), minutes, wish.note, stopId)
    return { before: workOf(stop), after: { ...workOf(stop), duties, minutes, note: wish.note } }
  })
  if (clash) return { kind: 'clash', stop: clash }
  if (written.kind === 'changed-since') throw new Error('a change without a version cannot be too late')
  return written
}

const workOf = ({ wellId, duties, minutes, note }: RoundStop) => ({ wellId, duties, minutes, note })

/** What is planned at the stop, then what else is due at its well, be it far off. */
function offered(sqlite: Database.Database, stop: RoundStop): PlannedDuty[] {
  const planned = new Set(stop.duties.map((duty) => duty.key))
  return [...stop.duties, ...dueAt(sqlite, stop.wellId, (item) => !planned.has(item.dutyKey))]
}
