import Link from 'next/link'
import { Field } from '@/app/ui/field'
import type { SupplyPlan } from '@/lib/domain/pump/supply'
import type { FormState } from '@/lib/forms/form'
import type { SupplyUnits } from '@/lib/forms/supply-form'
import { paths } from '@/lib/paths'

type Props = { wellId: string; plan: SupplyPlan; state: FormState; any: boolean; units: SupplyUnits }

/** Tries another tank, demand or panels: a plain form that makes an address. Nothing is stored. */
export function WhatIfForm({ wellId, plan, state, any, units }: Props) {
  return (
    <form
      className="stack-tight no-print"
      action={paths.wellSupply(wellId)}
      method="get"
      aria-labelledby="what-if"
    >
      <h2 id="what-if">Try something else</h2>
      <p className="muted text">Blank stays as it is. Nothing is stored.</p>
      <div className="fields">
        <Field
          state={state}
          name="tank"
          label="Tank that can be used"
          unit={units.tank}
          inputMode="decimal"
          short
        />
        <Field
          state={state}
          name="demand"
          label="Demand, of the present one"
          unit="%"
          inputMode="decimal"
          short
        />
        {plan.drive.kind === 'panels' ? (
          <Field state={state} name="panel" label="Panels" unit={units.power} inputMode="decimal" short />
        ) : null}
      </div>
      <div className="row">
        <button className="button button-quiet" type="submit">
          Reckon it
        </button>
        {any ? (
          <Link href={paths.wellSupply(wellId)} prefetch={false}>
            As it is
          </Link>
        ) : null}
      </div>
    </form>
  )
}
