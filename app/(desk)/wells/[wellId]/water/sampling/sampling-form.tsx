import { ErrorSummary } from '@/app/ui/error-summary'
import { Field } from '@/app/ui/field'
import { GROUP_NAMES } from '@/lib/domain/water/group-words'
import type { SampledGroup } from '@/lib/domain/water/sampling'
import type { SamplingQuery } from '@/lib/forms/sampling-form'

type Props = { query: SamplingQuery; action: string; chain: string; groups: readonly SampledGroup[] }

/** What is to be tested and when the bottles are filled. A plain form: it works without script. */
export function SamplingForm({ query, action, chain, groups }: Props) {
  const state = { typed: query.typed, errors: query.errors }
  return (
    <details className="no-print" open={Object.keys(query.errors).length > 0}>
      <summary>What to test, and when the bottles are filled</summary>
      <form className="form" action={action} method="get" noValidate>
        <ErrorSummary state={state} />
        {chain === '' ? null : <input type="hidden" name="chain" value={chain} />}
        <fieldset className="field">
          <legend>To be tested</legend>
          {groups.map((group) => (
            <label className="choice" key={group}>
              <input
                type="checkbox"
                name="groups"
                value={group}
                defaultChecked={query.groups.includes(group)}
              />
              <span>{GROUP_NAMES[group]}</span>
            </label>
          ))}
        </fieldset>
        <div className="fields">
          <Field state={state} name="on" label="Day of sampling" type="date" />
          <Field state={state} name="at" label="Time" type="time" />
          <Field
            state={state}
            name="setup"
            label="The laboratory’s own time"
            hint="Hours from its counter to the start of the test: ask"
            unit="h"
            inputMode="decimal"
          />
        </div>
        <label className="choice">
          <input type="checkbox" name="chlorinated" value="yes" defaultChecked={query.chlorinated} />
          <span>
            The water is chlorinated all the time (other bottles; shock chlorine must be gone first)
          </span>
        </label>
        <div>
          <button className="button" type="submit">
            Make the sheet
          </button>
        </div>
      </form>
    </details>
  )
}
