/** Which wells to visit on a day or in a week. */
import type { Day } from '@/lib/domain/quantity'
import type { LatLon } from '../geodesy'
import {
  asProblem,
  cheapestFit,
  type DayPlan,
  type Fit,
  type Ground,
  isKept,
  layGround,
  tidy,
} from './day-plan'
import type {
  DutyDue,
  LeftOut,
  Proposal,
  ProposedDay,
  ProposedDuty,
  ProposeSettings,
  WellDue,
  WorkDay,
} from './due-types'
import { shutOn, shutOnAll } from './open-days'
import { schedule } from './schedule'
import { detourReason, type Nearness, nearness, tierOf, worthOf } from './worth'

/** Work of one weight at one well, taken or left as a whole. `place` is the number of the well, from 1. */
type Lot = {
  place: number
  well: WellDue
  duties: ProposedDuty[]
  serviceS: number
  points: number
  wear: boolean
}

type Plan = {
  ground: Ground
  days: DayPlan[]
  taken: Map<number, ProposedDuty[]>
  leftOut: LeftOut[]
  settings: ProposeSettings
}

/**
 * Proposes the stops of the days given, from what falls due.
 *
 * Method  work gets room by weight: health past due first, then supply past due and health due, then the rest that is
 *         due, and last what falls due soon at a stop that is visited anyhow. Within a weight the lot is taken next
 *         whose points less the minutes of driving it adds are most. Days keep the hours of the outfit and the
 *         owners; each is then put in its best order.
 * Shape   where a health duty past due found no room, nothing of wear is taken at all. What is due and not proposed is
 *         in `leftOut` with its reason; what has no due date is not proposed, and is for the due list to show.
 * Throws  RangeError on a list of days that is empty or not in time order.
 * Cost    wells × days × stops² for each stop taken; meant for some hundred wells that fall due.
 */
export function proposeRounds(
  wells: readonly WellDue[],
  workDays: readonly WorkDay[],
  yard: LatLon,
  settings: ProposeSettings,
): Proposal {
  const first = workDays[0]?.day
  const last = workDays.at(-1)?.day
  if (first === undefined || last === undefined) throw new RangeError('there is no day to propose for')
  workDays.forEach((w, i) => {
    if (i > 0 && w.day <= (workDays[i - 1]?.day ?? ''))
      throw new RangeError(`${w.day} is not after the day before it`)
  })
  const sorted = [...wells].sort((a, b) => (a.id < b.id ? -1 : 1))
  const plan: Plan = {
    ground: layGround(sorted, yard, settings.driving),
    days: workDays.map((workDay) => ({ workDay, tour: [] })),
    taken: new Map(),
    leftOut: [],
    settings,
  }
  const near = (duty: DutyDue) => nearness(duty, first, last, settings.soonDays)
  fill(
    plan,
    lotsOf(plan, first, (duty) => tierOf(duty, near(duty)) === 0, near),
  )
  const wearWaits = plan.leftOut.some((left) => left.code === 'no-room')
  for (const tier of [1, 2]) {
    const lots = lotsOf(plan, first, (duty) => tierOf(duty, near(duty)) === tier, near)
    const waiting = wearWaits ? lots.filter((lot) => lot.wear) : []
    for (const lot of waiting)
      leaveOut(plan, lot, 'health-first', 'Wear waits while health work past due has no room.')
    fill(
      plan,
      lots.filter((lot) => !waiting.includes(lot)),
    )
  }
  bundle(plan, first, near, wearWaits)
  tidy(plan.ground, plan.days)
  return { days: plan.days.map((day) => proposedDay(plan, day)), leftOut: plan.leftOut }
}

/** The lots of one weight; wear is kept apart from the rest, so that it can wait alone. */
function lotsOf(
  { ground }: Plan,
  first: Day,
  wanted: (duty: DutyDue) => boolean,
  near: (duty: DutyDue) => Nearness,
): Lot[] {
  return ground.wells.flatMap((well, i) =>
    [false, true].flatMap((wear): Lot[] => {
      const duties = well.duties.filter((duty) => wanted(duty) && (duty.consequence === 'wear') === wear)
      if (duties.length === 0) return []
      const proposed = duties.map((duty) => asProposed(duty, near(duty), first, false))
      return [
        {
          place: i + 1,
          well,
          duties: proposed,
          serviceS: duties.reduce((sum, duty) => sum + duty.serviceS, 0),
          points: proposed.reduce((sum, duty) => sum + duty.reason.points, 0),
          wear,
        },
      ]
    }),
  )
}

function asProposed(duty: DutyDue, near: Nearness, first: Day, whileThere: boolean): ProposedDuty {
  return { key: duty.key, name: duty.name, reason: worthOf(duty, near, first), whileThere }
}

/** Gives the lots room until none fits, even after the days were put in their best order; what is left says why. */
function fill(plan: Plan, lots: readonly Lot[]): void {
  let waiting = lots.filter((lot) => {
    const shut = shutOnAll(
      lot.well,
      plan.days.map((d) => d.workDay.day),
    )
    if (shut) leaveOut(plan, lot, shut.code, shut.why)
    return shut === null
  })
  while (waiting.length > 0) {
    const next = bestNext(plan, waiting)
    if (!next) {
      if (tidy(plan.ground, plan.days)) continue
      break
    }
    take(plan, next.lot, next.fit)
    waiting = waiting.filter((lot) => lot !== next.lot)
  }
  for (const lot of waiting) {
    if (plan.taken.has(lot.place))
      leaveOut(plan, lot, 'no-room', 'The day on which it is visited has no more room.')
    else if (fitsAlone(plan, lot)) leaveOut(plan, lot, 'no-room', fullWords(plan, lot.well))
    else
      leaveOut(
        plan,
        lot,
        'too-far',
        'Its way, its work and its hours do not fit into one of these days even alone.',
      )
  }
}

/** Why a lot that would fit alone found no room; a household's days narrow down which count. */
function fullWords({ days }: Plan, well: WellDue): string {
  const narrowed = days.some(({ workDay }) => shutOn(well, workDay.day) === 'owner-away')
  return narrowed ? 'The days on which the owner wishes visits are full.' : 'The days are full.'
}

type Next = { lot: Lot; fit: Fit; value: number }

function bestNext(plan: Plan, waiting: readonly Lot[]): Next | null {
  let best: Next | null = null
  for (const lot of waiting) {
    const fit = fitOf(plan, lot, cheapestFit)
    if (!fit) continue
    const value = lot.points - fit.extraS / 60
    // Equal worth goes by the order of the wells, so that the answer is always the same.
    if (!best || value > best.value + 1e-9) best = { lot, fit, value }
  }
  return best
}

/** Where the lot fits: at its stop, if the well is visited already, else on a day on which it can be reached. */
function fitOf(
  plan: Plan,
  lot: Lot,
  find: (g: Ground, days: DayPlan[], place: number) => Fit | null,
): Fit | null {
  const { ground, days } = plan
  const visited = days.find((day) => day.tour.includes(lot.place))
  return withWork(plan, lot, () => {
    if (!visited)
      return find(
        ground,
        days.filter((d) => shutOn(lot.well, d.workDay.day) === null),
        lot.place,
      )
    return isKept(ground, visited, visited.tour) ? { day: visited, tour: visited.tour, extraS: 0 } : null
  })
}

function fitsAlone(plan: Plan, lot: Lot): boolean {
  const empty = plan.days
    .filter((day) => shutOn(lot.well, day.workDay.day) === null)
    .map(({ workDay }) => ({ workDay, tour: [] }))
  return withWork(plan, lot, () => cheapestFit(plan.ground, empty, lot.place)) !== null
}

/** Asks a question with the work of the lot laid on its stop, and takes it off again. */
function withWork<T>({ ground, taken, settings }: Plan, lot: Lot, ask: () => T): T {
  const before = ground.service[lot.place] ?? 0
  ground.service[lot.place] = before + lot.serviceS + (taken.has(lot.place) ? 0 : settings.setUpS)
  const answer = ask()
  ground.service[lot.place] = before
  return answer
}

function take({ ground, taken, settings }: Plan, lot: Lot, fit: Fit): void {
  const setUpS = taken.has(lot.place) ? 0 : settings.setUpS
  ground.service[lot.place] = (ground.service[lot.place] ?? 0) + lot.serviceS + setUpS
  taken.set(lot.place, [...(taken.get(lot.place) ?? []), ...lot.duties])
  fit.day.tour = fit.tour
}

function leaveOut(plan: Plan, lot: Lot, code: LeftOut['code'], why: string): void {
  const duties = lot.duties.map((duty) => duty.name)
  plan.leftOut.push({ wellId: lot.well.id, label: lot.well.label, duties, code, why })
}

/** Adds what falls due soon at stops that are visited anyhow, while the day has room; the weightiest first. */
function bundle(plan: Plan, first: Day, near: (duty: DutyDue) => Nearness, wearWaits: boolean): void {
  const lots = plan.ground.wells.flatMap((well, i) =>
    well.duties
      .filter((duty) => near(duty) === 'soon' && !(wearWaits && duty.consequence === 'wear'))
      .map((duty): Lot => {
        const proposed = asProposed(duty, 'soon', first, true)
        const { points } = proposed.reason
        return { place: i + 1, well, duties: [proposed], serviceS: duty.serviceS, points, wear: false }
      }),
  )
  for (const lot of lots.sort((a, b) => b.points - a.points || a.place - b.place)) {
    if (!plan.taken.has(lot.place)) continue
    const fit = fitOf(plan, lot, () => null)
    if (fit) take(plan, lot, fit)
  }
}

function proposedDay({ ground, taken }: Plan, day: DayPlan): ProposedDay {
  const { tour } = day
  const planned = schedule(
    asProblem(ground, day.workDay, tour),
    tour.map((_, i) => i),
  )
  const stops = tour.flatMap((place, i) => {
    const well = ground.wells[place - 1]
    const times = planned.stops[i]
    if (!well || !times) return []
    const duties = taken.get(place) ?? []
    const detour = detourReason(detourS(ground, tour, i))
    const reasons = [...duties.map((duty) => duty.reason), detour]
    const worth = reasons.reduce((sum, reason) => sum + reason.points, 0)
    return [{ wellId: well.id, label: well.label, times, duties, worth, reasons, notes: well.notes }]
  })
  return { day: day.workDay.day, stops, schedule: planned }
}

/** The driving that would be saved without the stop at place i of the tour. */
function detourS({ travelS }: Ground, tour: readonly number[], i: number): number {
  const at = (k: number) => tour[k] ?? 0
  const time = (a: number, b: number) => travelS[a]?.[b] ?? 0
  return time(at(i - 1), at(i)) + time(at(i), at(i + 1)) - time(at(i - 1), at(i + 1))
}
