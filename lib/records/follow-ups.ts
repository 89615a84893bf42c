import { z } from 'zod'
import { mayFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { type FollowUp, followUp, STOP_OUTCOMES, type StopOutcome } from '@/lib/domain/place'
import type { Day } from '@/lib/domain/quantity/day'
import { writeChange } from './changes'
import type { Db } from './db'
import { prepared } from './statements'
import { transaction } from './transaction'

/** What a stop that was not done left to be seen to, until it is settled or somebody closes another stop there. */
export type OpenFollowUp = {
  stopId: string
  roundId: string
  roundName: string
  wellId: string
  label: string
  outcome: StopOutcome
  closedOn: Day
  closedBy: string | null
  said: string | null
  steps: FollowUp[]
}

type Stored = Omit<OpenFollowUp, 'outcome' | 'steps'> & { outcome: string; nextSteps: string }

const SELECT = `SELECT s."id" AS "stopId", s."roundId", r."name" AS "roundName", s."wellId", w."label", s."outcome",
  s."closedOn", s."closedBy", s."said", s."nextSteps"
  FROM "Stop" s JOIN "Well" w ON w."id" = s."wellId" JOIN "Round" r ON r."id" = s."roundId"
  WHERE w."struck" = 0 AND w."retiredOn" IS NULL AND s."settledAt" IS NULL AND s."closedAt" IS NOT NULL
  AND s."nextSteps" <> '[]'`

const LIST_MAX = 200
const stepsShape = z.array(followUp)

/** What is to follow anywhere, the oldest first, at most 200 stops; nothing for an owner. */
export function openFollowUps(db: Db, viewer: Viewer): OpenFollowUp[] {
  if (!mayFleet(viewer, 'round.see')) return []
  return prepared<Stored>(db.sqlite, `${SELECT} ORDER BY s."closedAt" LIMIT ${LIST_MAX}`).all().map(read)
}

/** The same of one well. */
export function followUpsOfWell(db: Db, viewer: Viewer, wellId: string): OpenFollowUp[] {
  if (!mayFleet(viewer, 'round.see')) return []
  return prepared<Stored>(db.sqlite, `${SELECT} AND s."wellId" = ? ORDER BY s."closedAt"`)
    .all(wellId)
    .map(read)
}

function read({ nextSteps, outcome, ...row }: Stored): OpenFollowUp {
  const known = STOP_OUTCOMES.find((one) => one === outcome)
  if (!known) throw new Error(`a stop ended as "${outcome}"`)
  return { ...row, outcome: known, steps: stepsShape.parse(JSON.parse(nextSteps)) }
}

/** Says that what a stop left was seen to; false when there is nothing open of that id for this viewer. */
export async function settleStop(db: Db, viewer: Viewer, stopId: string, at: string): Promise<boolean> {
  if (!mayFleet(viewer, 'round.work')) return false
  return transaction(db, () => {
    const stop = prepared<Stored>(db.sqlite, `${SELECT} AND s."id" = ?`).get(stopId)
    if (!stop) return false
    prepared(
      db.sqlite,
      'UPDATE "Stop" SET "settledAt" = ?, "settledBy" = ?, "version" = "version" + 1 WHERE "id" = ?',
    ).run(at, viewer.name, stopId)
    writeChange(db.sqlite, viewer, at, {
      action: 'follow-up settled',
      targetKind: 'stop',
      targetId: stopId,
      wellId: stop.wellId,
    })
    return true
  })
}
