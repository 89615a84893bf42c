import { ErrorSummary } from '@/app/ui/error-summary'
import { Field, SelectField } from '@/app/ui/field'
import { AreaField } from '@/app/ui/list-filter'
import type { PlanQuery } from '@/lib/forms/round-plan'
import { paths } from '@/lib/paths'
import { DriverField } from '../../_rounds/driver-field'

const SPANS = [
  { value: 'day', label: 'One day' },
  { value: 'week', label: 'A working week, Monday to Friday' },
  { value: 'seven', label: 'Seven days' },
]

type Props = {
  query: PlanQuery
  areas: readonly string[]
  people: readonly { id: string; name: string }[]
}

/** Which days, hours, person and area the proposal is for. Asking changes nothing. */
export function PlanQueryForm({ query, areas, people }: Props) {
  const { texts, errors } = query
  const state = { typed: texts, errors: query.asked ? errors : {} }
  return (
    <form className="form form-wide sheet" action={paths.planRound()} method="get" noValidate>
      <ErrorSummary state={state} />
      <div className="fields">
        <Field state={state} name="from" label="First day" type="date" />
        <SelectField state={state} name="span" label="For" options={SPANS} />
        <Field state={state} name="start" label="Leave the yard" hint="Such as 8:00" />
        <Field state={state} name="end" label="Be back by" hint="Such as 17:00" />
        <DriverField state={state} people={people} />
        <AreaField state={state} areas={areas} any="all areas" />
        <Field
          state={state}
          name="soon"
          label="Take along what falls due within"
          hint="At wells that are visited anyhow"
          unit="days"
          inputMode="numeric"
        />
      </div>
      <button type="submit" className="button">
        Propose the stops
      </button>
    </form>
  )
}
