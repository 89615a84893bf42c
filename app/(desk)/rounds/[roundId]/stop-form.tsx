'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field } from '@/app/ui/field'
import { Section } from '@/app/ui/section'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM, type FormState } from '@/lib/forms/form'
import type { RoundHead, RoundStop } from '@/lib/records/rounds'
import type { StopChoice } from '@/lib/records/stop-change'
import { editStop } from './actions'

type Props = { stop: RoundStop; round: RoundHead; choices: readonly StopChoice[] }

/** What is to be done at a stop and how long it takes, changed in place. */
export function StopForm({ stop, round, choices }: Props) {
  const [state, action] = useActionState<FormState, FormData>(
    editStop.bind(null, round.id, stop.id),
    EMPTY_FORM,
  )
  const fresh = state.typed.version === undefined
  const prefix = `stop-${stop.id}-`
  return (
    <div className="no-print">
      <Section title={`Change the work at ${stop.label}`} state={state} fields={['minutes']}>
        <form className="form" action={action} noValidate>
          <ErrorSummary state={state} prefix={prefix} />
          <input type="hidden" name="version" value={state.typed.version ?? round.version} />
          <fieldset className="field">
            <legend>To be done here</legend>
            {choices.map(({ key, words, planned }) => (
              <label className="choice" key={key}>
                <input
                  type="checkbox"
                  name={`duty:${key}`}
                  value="yes"
                  defaultChecked={fresh ? planned : state.typed[`duty:${key}`] !== undefined}
                />
                <span>{words}</span>
              </label>
            ))}
            {choices.length === 0 ? <p>Nothing is due here within a month of the round.</p> : null}
          </fieldset>
          <Field
            state={state}
            prefix={prefix}
            name="minutes"
            label="Minutes of work (optional)"
            hint={`Setting up included; ${stop.minutes} min now. Blank reckons it from the duties ticked`}
            inputMode="numeric"
            short
          />
          <SubmitButton quiet>Change the work</SubmitButton>
        </form>
      </Section>
    </div>
  )
}
