import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { stopMinutes } from '@/lib/domain/place'
import type { Day } from '@/lib/domain/quantity/day'
import type { Db } from './db'
import { dutiesBy, plannedDuties, storedStops } from './round-stops'
import { changeOfRound, type RoundWrite } from './round-writes'
import type { RoundStop } from './rounds'
import { prepared } from './statements'
import { getYard } from './yard'

/** One thing that can be done at a stop, planned there or not. */
export type StopChoice = { key: string; words: string; planned: boolean }

/**
 * What is planned at a stop, and what else falls due at its well by a month after the round. Throws NotAllowed unless the
 * viewer may plan.
 */
export function stopChoices(
  db: Db,
  viewer: Viewer,
  day: Day,
  stop: Pick<RoundStop, 'wellId' | 'duties'>,
): StopChoice[] {
  demandFleet(viewer, 'round.plan')
  const planned = new Set(stop.duties.map((duty) => duty.key))
  return [
    ...stop.duties.map(({ key, name }) => ({ key, words: name, planned: true })),
    ...dutiesBy(db.sqlite, stop.wellId, day)
      .filter((duty) => !planned.has(duty.key))
      .map(({ key, name, why }) => ({ key, words: `${name}: ${why}`, planned: false })),
  ]
}

/** What a person wants of a stop. `minutes` null: reckoned from the duties. */
export type StopWork = { dutyKeys: readonly string[]; minutes: number | null }

/**
 * Changes what is to be done at an open stop, and how long it takes, setting up included. A duty that is neither planned
 * there nor due is left out. Throws NotAllowed unless the viewer may plan.
 */
export function changeStop(
  db: Db,
  viewer: Viewer,
  roundId: string,
  version: number,
  stopId: string,
  work: StopWork,
  at: string,
): Promise<RoundWrite> {
  demandFleet(viewer, 'round.plan')
  return changeOfRound(db, viewer, roundId, version, 'stop changed', at, (sqlite, round) => {
    const stop = storedStops(sqlite, round.id).find((one) => one.id === stopId)
    if (!stop) return 'This stop is not on the round any more.'
    if (stop.outcome !== null) return 'This stop is closed: what happened there stays as it was written.'
    const wanted = new Set(work.dutyKeys)
    const kept = stop.duties.filter((duty) => wanted.delete(duty.key))
    const duties = [...kept, ...plannedDuties(sqlite, stop.wellId, [...wanted])]
    const keys = duties.map((duty) => duty.key)
    const minutes = work.minutes ?? Math.max(1, stopMinutes(getYard(db), keys))
    prepared(
      sqlite,
      'UPDATE "Stop" SET "duties" = ?, "minutes" = ?, "version" = "version" + 1 WHERE "id" = ?',
    ).run(JSON.stringify(duties), minutes, stopId)
    return {
      before: { stopId, duties: stop.duties, minutes: stop.minutes },
      after: { stopId, duties, minutes },
    }
  })
}
