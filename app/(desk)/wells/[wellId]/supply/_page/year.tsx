import { listed } from '@/lib/domain/logbook/describe'
import type { SupplyBasis } from '@/lib/domain/logbook/supply-plan'
import { changedPlan } from '@/lib/domain/logbook/supply-standing'
import { supplyAssumptions } from '@/lib/domain/logbook/supply-words'
import { simulateYear, supplyResult } from '@/lib/domain/pump/supply'
import { formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'
import { supplyUnits } from '@/lib/forms/supply-form'
import type { readWhatIf, WhatIf } from '@/lib/forms/supply-what-if'
import type { WellSupply } from '@/lib/records/well-supply'
import { BrushStop } from './brush-stop'
import { Mending } from './mending'
import { Sensitivities } from './sensitivities'
import { TankChart } from './tank-chart'
import { Verdict } from './verdict'
import { WhatIfForm } from './what-if-form'

type Props = {
  page: WellSupply
  basis: Extract<SupplyBasis, { kind: 'plan' }>
  whatIf: ReturnType<typeof readWhatIf>
  today: Day
  units: UnitSystem
}

/** The simulated year: as it is or, where the address asks for it, with something otherwise. */
export function Year({ page, basis, whatIf, today, units }: Props) {
  const { well } = page
  const asIs = basis.plan
  const plan = whatIf.any ? changedPlan(asIs, whatIf.asked) : asIs
  const year = simulateYear(plan)
  const result = supplyResult(year, plan.tankM3)
  return (
    <>
      <Verdict
        plan={plan}
        result={result}
        today={today}
        units={units}
        whatIf={whatIf.any ? sayChanged(whatIf.asked, units) : null}
      />
      {whatIf.any ? (
        <Verdict
          plan={asIs}
          result={supplyResult(simulateYear(asIs), asIs.tankM3)}
          today={today}
          units={units}
          whatIf={null}
          short
        />
      ) : null}
      <TankChart year={year} tankM3={plan.tankM3} units={units} />
      <WhatIfForm
        wellId={well.id}
        plan={asIs}
        state={whatIf.state}
        any={whatIf.any}
        units={supplyUnits(units)}
      />
      <Mending
        plan={plan}
        better={{
          newPumpOverNow: page.newPumpOverNow,
          baselineWellM3PerS: basis.baselineWellM3PerS,
        }}
        short={result.shortDays > 0}
        units={units}
      />
      <BrushStop plan={plan} on={page.brushesOn} now={result} units={units} />
      <Sensitivities plan={plan} units={units} />
      <section aria-labelledby="granted" className="stack-tight">
        <h2 id="granted">What this takes for granted</h2>
        <ul className="text">
          {supplyAssumptions(basis.ground, plan, units).map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </section>
    </>
  )
}

/** What an address asks to be otherwise, in words. */
function sayChanged({ tankM3, demandTimes, panelW }: WhatIf, units: UnitSystem): string {
  return listed([
    ...(tankM3 === null ? [] : [`a tank of ${formatQuantity(tankM3, 'tank', units)}`]),
    ...(demandTimes === null ? [] : [`${Math.round(100 * demandTimes)} % of the present demand`]),
    ...(panelW === null ? [] : [`panels of ${formatQuantity(panelW, 'power', units)}`]),
  ])
}
