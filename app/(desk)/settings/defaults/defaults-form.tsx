'use client'

import { useActionState } from 'react'
import { DoneNote } from '@/app/ui/done-note'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Choices, Field } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { dutyBox } from '@/lib/forms/defaults-form'
import { EMPTY_FORM } from '@/lib/forms/form'
import { saveDefaults } from './actions'

const UNITS = [
  { value: 'us', label: 'US customary: feet, gallons, psi' },
  { value: 'metric', label: 'Metric: metres, litres, kPa' },
]

export type OfferedDuty = { key: string; name: string; months: number | null; basis: string }
type Props = { duties: readonly OfferedDuty[]; initial: Record<string, string> }

/** What a new well is given, and what the form of a new well opens with. */
export function DefaultsForm({ duties, initial }: Props) {
  const [state, action] = useActionState(saveDefaults, EMPTY_FORM)
  const given = (name: string) => ({ state, name, initial: initial[name] ?? '' })
  // An unticked box is not sent: once something was, only what came back is ticked.
  const ticked = (name: string) => (Object.keys(state.typed).length > 0 ? state.typed : initial)[name] !== ''
  return (
    <form className="form" action={action} noValidate>
      <ErrorSummary state={state} />
      <DoneNote state={state} />
      <fieldset className="field">
        <legend>Duties of a new well</legend>
        <span className="hint">
          Tick what most wells get; each well can still depart from it. Months: blank keeps those of the
          library.
        </span>
        <ul className="plain-list stack">
          {duties.map(({ key, name, months, basis }) => {
            const box = dutyBox(key)
            return (
              <li key={key} className="stack-tight">
                <label className="choice" key={`${key}-${ticked(box.tick)}`}>
                  <input type="checkbox" name={box.tick} value="1" defaultChecked={ticked(box.tick)} />
                  <span>{name}</span>
                </label>
                <details>
                  <summary>
                    {months === null ? 'No months in the library' : `${months} months in the library`}
                    <span className="unseen"> for {name}</span>
                  </summary>
                  <Field
                    {...given(box.months)}
                    label={`Months for ${name} (optional)`}
                    hint={basis}
                    inputMode="numeric"
                    short
                  />
                </details>
              </li>
            )
          })}
        </ul>
      </fieldset>
      <div className="fields">
        <Field
          {...given('closedFrom')}
          label="Closed season from (optional)"
          hint="A day like 15 Nov"
          short
        />
        <Field {...given('closedTo')} label="to (optional)" hint="A day like 31 Mar" short />
        <Field {...given('closedWhy')} label="Why (optional)" hint="Snow, flood meadow" />
      </div>
      <Choices {...given('units')} label="Units of a new account" options={UNITS} />
      <SubmitButton>Save</SubmitButton>
    </form>
  )
}
