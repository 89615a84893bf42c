import { type SupplyPlan, simulateYear, supplyResult } from '@/lib/domain/pump/supply'
import type { Day } from '@/lib/domain/quantity/day'
import type { DutyStanding } from '@/lib/domain/upkeep/types'
import { sayDay } from '@/lib/domain/upkeep/words'
import type { CurrentFact } from './entries'
import type { WellRegister } from './register'
import { type SupplyYield, supplyBasis } from './supply-plan'

/** The short of it, as stored with the well: the year itself is simulated anew where it is shown. */
export type SupplySummary =
  | {
      kind: 'year'
      from: Day
      firstShortDay: Day | null
      shortDays: number
      /** First short day with a fifth more demand, and with a fifth less; null where none is short. */
      early: Day | null
      late: Day | null
      reserveDays: number | null
    }
  | { kind: 'cannot-say'; missing: string[] }

/** By how much the demand is turned for the ends of the first short day: people know theirs to about that. */
const DEMAND_SHARE = 0.2

/**
 * How long the water lasts in the year after the last thing that was written down; null where nobody stated what drives
 * the pump. Pure and without a clock, like appraise. Costs three simulated years.
 */
export function supplyStanding(
  register: WellRegister,
  facts: readonly CurrentFact[],
  yields: SupplyYield,
): SupplySummary | null {
  const side = register.supplySide
  if (!side || register.retiredOn !== null) return null
  const { setOn } = side.facts
  const last = facts.at(-1)?.on ?? setOn
  const from = last.localeCompare(setOn) > 0 ? last : setOn
  const basis = supplyBasis(register, side, facts, yields, from)
  if (basis.kind === 'cannot-say') return basis
  const { firstShortDay, shortDays, leastReserve } = resultOf(basis.plan)
  return {
    kind: 'year',
    from,
    firstShortDay,
    shortDays,
    early: resultOf(withDemand(basis.plan, 1 + DEMAND_SHARE)).firstShortDay,
    late: resultOf(withDemand(basis.plan, 1 - DEMAND_SHARE)).firstShortDay,
    reserveDays: leastReserve?.days ?? null,
  }
}

const resultOf = (plan: SupplyPlan) => supplyResult(simulateYear(plan), plan.tankM3)

/** The same year with every demand times a factor. */
export function withDemand(plan: SupplyPlan, times: number): SupplyPlan {
  const uses = plan.uses.map((use) => ({ ...use, dailyM3: use.dailyM3.map((m3) => m3 * times) }))
  return { ...plan, uses }
}

/** An item of the due list, as the water's are: no duty of the register, and nothing that one visit does. */
export type SupplyItem = Omit<DutyStanding, 'limits'>

/** The first short day as something due; null where no day is short or nothing can be said. */
export function supplyItem(supply: SupplySummary | null): SupplyItem | null {
  if (supply?.kind !== 'year' || supply.firstShortDay === null) return null
  const { firstShortDay, shortDays, early, late, from } = supply
  const days = shortDays === 1 ? 'one short day' : `${shortDays} short days`
  const ends = [
    early === null ? null : `with a fifth more demand from ${sayDay(early)}`,
    late === null ? 'with a fifth less not at all' : `with a fifth less from ${sayDay(late)}`,
  ]
  return {
    key: 'supply-runs-short',
    name: 'Water runs short',
    consequence: 'supply',
    due: firstShortDay,
    basis: 'condition',
    from: early ?? firstShortDay,
    to: late,
    reason: `By the hour from ${sayDay(from)} on, the tank first runs short on ${sayDay(firstShortDay)}: ${days} in that year; ${ends.filter(Boolean).join(', ')}. What would mend it stands on the page Supply.`,
    lastDoneOn: null,
  }
}

/** A year with another tank, demand or panels; what is null stays as it is. A new tank is as full as the old one. */
export function changedPlan(
  plan: SupplyPlan,
  changed: { tankM3: number | null; demandTimes: number | null; panelW: number | null },
): SupplyPlan {
  const { tankM3, demandTimes, panelW } = changed
  const asked = demandTimes === null ? plan : withDemand(plan, demandTimes)
  const { drive } = asked
  return {
    ...asked,
    drive: drive.kind === 'panels' && panelW !== null ? { ...drive, ratedW: panelW } : drive,
    ...(tankM3 === null ? {} : { tankM3, startM3: tankM3 }),
  }
}
