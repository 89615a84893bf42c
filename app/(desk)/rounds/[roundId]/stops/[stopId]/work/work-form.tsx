'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field, TextArea } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM, type FormState } from '@/lib/forms/form'
import { workField } from '@/lib/forms/stop-work'
import type { WorkChoice } from '@/lib/records/stop-work'

type Props = {
  action: (before: FormState, form: FormData) => Promise<FormState>
  version: number
  choices: readonly WorkChoice[]
  setUpMinutes: number
  /** Null where the minutes are those reckoned from the duties. */
  minutes: number | null
  note: string | null
}

/** Duties to tick, minutes and a note of a stop. Works without script; comes back filled in. */
export function WorkForm({ action, version, choices, setUpMinutes, minutes, note }: Props) {
  const [state, send] = useActionState(action, EMPTY_FORM)
  const planned = choices.filter((choice) => choice.planned)
  const others = choices.filter((choice) => !choice.planned)
  const initialMinutes = minutes === null ? '' : String(minutes)
  return (
    <form className="form form-wide" action={send} noValidate>
      <ErrorSummary state={state} />
      <input type="hidden" name="version" value={state.typed.version ?? version} />
      <Duties legend="Planned here" choices={planned} state={state} none="No duty is planned here yet." />
      <Duties legend="Not planned here" choices={others} state={state} none="Nothing else has a duty here." />
      <Field
        state={state}
        name="minutes"
        label="Minutes at the stop (optional)"
        hint={`Blank: ${setUpMinutes} min to open and close the head, and the minutes of what is ticked`}
        initial={initialMinutes}
        unit="min"
        inputMode="numeric"
        autoComplete="off"
        short
      />
      <TextArea
        state={state}
        name="note"
        label="Note for whoever drives there (optional)"
        hint="Stands on the stop, on its sheet and on the phone; households do not see it"
        initial={note ?? ''}
        rows={2}
      />
      <SubmitButton>Save the work</SubmitButton>
    </form>
  )
}

type DutiesProps = { legend: string; choices: readonly WorkChoice[]; state: FormState; none: string }

function Duties({ legend, choices, state, none }: DutiesProps) {
  const fresh = state.typed.version === undefined
  return (
    <fieldset className="sheet">
      <legend>{legend}</legend>
      {choices.length === 0 ? <p className="muted">{none}</p> : null}
      {choices.map(({ key, name, why, planned, minutes }) => (
        <label className="choice choice-wide" key={key}>
          <input
            type="checkbox"
            name={workField(key)}
            value="yes"
            defaultChecked={fresh ? planned : state.typed[workField(key)] !== undefined}
          />
          <span>
            <strong>{name}</strong> ({minutes} min) <span className="muted">{why}</span>
          </span>
        </label>
      ))}
    </fieldset>
  )
}
