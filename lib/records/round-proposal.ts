import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import {
  AGAIN_KEY,
  type DutyDue,
  daysNotWished,
  dutyMinutes,
  type PlannedDuty,
  type Proposal,
  proposeRounds,
  secondsOf,
  type WellDue,
  type YardSetting,
} from '@/lib/domain/place'
import { addDays, type Day } from '@/lib/domain/quantity/day'
import { consequenceOfRank } from '@/lib/domain/upkeep/rank'
import type { Db } from './db'
import { type OpenFollowUp, openFollowUps } from './follow-ups'
import type { WellRow } from './rows'
import { NO_DAY } from './standings'
import { prepared } from './statements'

/** What is asked of a proposal: the days of work with their hours, HH:MM, one area or all, how far ahead to take along. */
export type ProposalWish = {
  days: readonly Day[]
  startAt: string
  endAt: string
  area: string | null
  soonDays: number
}

/** A well that is on an open round already, so that it is not put on another. */
export type OnRound = { wellId: string; label: string; roundId: string; roundName: string; day: Day }

/**
 * `duties` are the duties that may be planned at each well, by the well's id, those without a coordinate included;
 * `notWeighed` counts the wells beyond the two hundred most pressing, which were not looked at.
 */
export type RoundProposal = {
  proposal: Proposal
  duties: Record<string, PlannedDuty[]>
  /** Names of the wells weighed, by id. */
  names: Record<string, string | null>
  onRounds: OnRound[]
  notWeighed: number
}

/** More than a week of any outfit's rounds; keeps a proposal within a second. */
const WEIGHED_MAX = 200
const ITEMS_MAX = 5000

type Item = {
  wellId: string
  dutyKey: string
  dutyName: string
  rank: number
  dueOn: Day
  fromOn: Day | null
}

/**
 * Proposes the stops of the days asked for. Retired wells are never in it; wells on an open round are told apart.
 * Throws  NotAllowed unless the viewer may plan; RangeError as proposeRounds, and where the yard was not set.
 */
export function proposeStops(
  db: Db,
  viewer: Viewer,
  setting: YardSetting,
  wish: ProposalWish,
): RoundProposal {
  demandFleet(viewer, 'round.plan')
  const first = wish.days[0]
  const last = wish.days.at(-1)
  if (!setting.yard || first === undefined || last === undefined) {
    throw new RangeError('a proposal needs a yard and a day')
  }
  const again = openFollowUps(db, viewer)
  const items = itemsBy(db, wish, first, addDays(last, wish.soonDays), last)
  const pressing = [...new Set([...again.map((stop) => stop.wellId), ...items.map((item) => item.wellId)])]
  const onRounds = onOpenRounds(db)
  const taken = new Set(onRounds.map((well) => well.wellId))
  const free = pressing.filter((wellId) => !taken.has(wellId))
  const rows = free.slice(0, WEIGHED_MAX).flatMap((wellId) => plannable(db, wellId, wish.area) ?? [])
  const wells = rows.map((well) => wellDue(well, items, again, setting))
  const proposal = proposeRounds(
    wells,
    wish.days.map((day) => ({ day, startS: secondsOf(wish.startAt), endS: secondsOf(wish.endAt) })),
    setting.yard,
    {
      driving: { roadFactor: setting.roadFactor, speedKmH: setting.speedKmH },
      setUpS: setting.setUpMinutes * 60,
      soonDays: wish.soonDays,
    },
  )
  return {
    proposal,
    duties: Object.fromEntries(wells.map((well) => [well.id, well.duties.map(plannedOf)])),
    names: Object.fromEntries(rows.map((well) => [well.id, well.name])),
    onRounds: onRounds.filter((well) => pressing.includes(well.wellId)),
    notWeighed: Math.max(0, free.length - WEIGHED_MAX),
  }
}

/** What is due by a day, or may be by the last day of the round, the weightiest and longest past first. */
function itemsBy(db: Db, wish: ProposalWish, first: Day, by: Day, last: Day): Item[] {
  const area = wish.area === null ? '' : ' AND d."area" = ?'
  return prepared<Item>(
    db.sqlite,
    `SELECT d."wellId", d."dutyKey", d."dutyName", d."rank", d."dueOn", d."fromOn" FROM "DueItem" d
     WHERE d."dueOn" < '${NO_DAY}' AND (d."dueOn" <= ? OR d."fromOn" <= ?)${area}
     ORDER BY d."dueOn" >= ?, d."rank", d."dueOn", d."id" LIMIT ${ITEMS_MAX}`,
  ).all(by, last, ...(wish.area === null ? [] : [wish.area]), first)
}

/** The well of that id, if a round can go there at all. */
function plannable(db: Db, wellId: string, area: string | null): WellRow | null {
  const well = prepared<WellRow>(
    db.sqlite,
    'SELECT * FROM "Well" WHERE "id" = ? AND "struck" = 0 AND "retiredOn" IS NULL',
  ).get(wellId)
  return well && (area === null || well.area === area) ? well : null
}

function onOpenRounds(db: Db): OnRound[] {
  return prepared<OnRound>(
    db.sqlite,
    `SELECT s."wellId", w."label", r."id" AS "roundId", r."name" AS "roundName", r."day"
     FROM "Stop" s JOIN "Round" r ON r."id" = s."roundId" JOIN "Well" w ON w."id" = s."wellId"
     LEFT JOIN "Batch" b ON b."id" = r."batchId"
     WHERE r."status" <> 'closed' AND s."outcome" IS NULL AND w."struck" = 0 AND b."undoneAt" IS NULL
     ORDER BY w."labelKey"`,
  ).all()
}

function wellDue(
  well: WellRow,
  items: readonly Item[],
  again: readonly OpenFollowUp[],
  setting: YardSetting,
): WellDue {
  const { latitude, longitude } = well
  const duties = items
    .filter((item) => item.wellId === well.id)
    .map(
      (item): DutyDue => ({
        key: item.dutyKey,
        name: item.dutyName,
        consequence: consequenceOfRank(item.rank),
        due: item.dueOn,
        from: item.fromOn,
        serviceS: dutyMinutes(setting, item.dutyKey) * 60,
      }),
    )
  const back = again
    .filter((stop) => stop.wellId === well.id)
    .flatMap(comeAgain)
    .slice(0, 1)
  return {
    id: well.id,
    label: well.label,
    at: latitude !== null && longitude !== null ? { latitude, longitude } : null,
    closed:
      well.closedFrom && well.closedTo
        ? { from: well.closedFrom, to: well.closedTo, why: well.closedWhy ?? 'closed season' }
        : null,
    wishes: {
      window: {
        notBeforeS: well.visitFrom === null ? null : secondsOf(well.visitFrom),
        doneByS: well.visitUntil === null ? null : secondsOf(well.visitUntil),
      },
      notOn: daysNotWished(well.visitDays),
    },
    notes: [
      ...(well.gateCode === null ? [] : [`Gate code ${well.gateCode}`]),
      ...(well.hazards === null ? [] : [`Beware: ${well.hazards}`]),
    ],
    duties: [...duties, ...back],
  }
}

const OUTCOMES = { done: 'done', partly: 'partly done', 'not-found': 'not found', 'no-access': 'no access' }

/** A stop that asked to come again, as something due by its day. The work itself stands with the duties. */
function comeAgain({ steps, outcome }: OpenFollowUp): DutyDue[] {
  const step = steps.find((one) => one.kind === 'visit-again')
  if (!step?.by) return []
  return [
    {
      key: AGAIN_KEY,
      name: `Come again (last time: ${OUTCOMES[outcome]})`,
      consequence: 'supply',
      due: step.by,
      from: null,
      serviceS: 0,
    },
  ]
}

const plannedOf = ({ key, name, consequence }: DutyDue): PlannedDuty => ({
  key,
  name,
  consequence,
  why: '',
  ticked: true,
})
