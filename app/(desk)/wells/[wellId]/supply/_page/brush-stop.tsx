import { showDay } from '@/app/ui/show-day'
import { type SupplyPlan, type SupplyResult, simulateYear, supplyResult } from '@/lib/domain/pump/supply'
import type { UnitSystem } from '@/lib/domain/quantity'
import { addDays, type Day } from '@/lib/domain/quantity/day'

/** How long a pump stands from its last brush to the visit: common practice, no published source. */
const WAIT_DAYS = 14
const YEAR_DAYS = 365

type Props = { plan: SupplyPlan; on: Day | null; now: SupplyResult; units: UnitSystem }

/** What a stop for worn brushes would do to the year, where their wear was measured. */
export function BrushStop({ plan, on, now, units }: Props) {
  return (
    <section aria-labelledby="brushes" className="stack-tight">
      <h2 id="brushes">If the brushes are left until they fail</h2>
      <p className="text">{sayStop(plan, on, now, units)}</p>
    </section>
  )
}

function sayStop(plan: SupplyPlan, on: Day | null, now: SupplyResult, units: UnitSystem): string {
  if (on === null) {
    return 'Cannot be said: no measured brush length tells when they are worn (page Wear and pump). A motor without brushes has none to wear.'
  }
  // Brushes past their least length may fail on any day, the first of the year with them.
  const from = on < plan.from ? plan.from : on
  if (from > addDays(plan.from, YEAR_DAYS - 1)) {
    return `They last beyond this year by what was measured, until about ${showDay(on, units)}.`
  }
  const stopped = { ...plan, pumpOff: [{ from, to: addDays(from, WAIT_DAYS - 1) }] }
  const then = supplyResult(simulateYear(stopped), plan.tankM3)
  const more = then.shortDays - now.shortDays
  const when = `They are worn about ${showDay(on, units)}. A pump that stands still for ${WAIT_DAYS} days from ${showDay(from, units)} (common practice, no published source)`
  if (more <= 0) return `${when} makes no more days short: the tank carries it.`
  return `${when} makes ${more} more short ${more === 1 ? 'day' : 'days'}. Served before that day, none of these come.`
}
