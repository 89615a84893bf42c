'use client'

import { useActionState } from 'react'
import { DoneNote } from '@/app/ui/done-note'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field, type Option, SelectField } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM } from '@/lib/forms/form'
import { saveReckoning } from './actions'

type Props = {
  falseAlarmPercent: string
  scheme: string
  schemes: readonly Option[]
  ownerSheetsCount: boolean
}

/** What the outfit chooses about the reckoning. */
export function ReckonForm({ falseAlarmPercent, scheme, schemes, ownerSheetsCount }: Props) {
  const [state, action] = useActionState(saveReckoning, EMPTY_FORM)
  return (
    <form className="form" action={action} noValidate>
      <ErrorSummary state={state} prefix="reckon-" />
      <DoneNote state={state} />
      <Field
        state={state}
        prefix="reckon-"
        name="falseAlarmPercent"
        label="False alarms about yield"
        hint="Of a hundred wells that hold their yield, how many may ever be called declining. Fewer means later warnings."
        initial={falseAlarmPercent}
        inputMode="decimal"
        unit="%"
        short
      />
      <SelectField
        state={state}
        prefix="reckon-"
        name="scheme"
        label="Limits for water"
        hint="The published set of limits by which samples are judged"
        initial={scheme}
        options={schemes}
      />
      <label className="choice">
        <input
          type="checkbox"
          name="ownerSheetsCount"
          value="yes"
          defaultChecked={
            state.typed.ownerSheetsCount === undefined
              ? ownerSheetsCount
              : state.typed.ownerSheetsCount !== ''
          }
        />
        <span>
          A good lab sheet from a household counts before anybody here has looked at it. Without this it
          clears nothing until it is confirmed. A bad one counts at once either way.
        </span>
      </label>
      <SubmitButton>Save and reckon anew</SubmitButton>
    </form>
  )
}
