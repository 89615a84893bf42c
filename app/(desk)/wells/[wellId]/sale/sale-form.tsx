'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Choices, Field } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM, type FormState } from '@/lib/forms/form'

const READS = [
  { value: 'nothing', label: 'Nothing of this well any more' },
  { value: 'past', label: 'The logbook up to the day of the sale, and nothing after it' },
]

type Props = {
  action: (before: FormState, form: FormData) => Promise<FormState>
  household: string | null
  wellName: string
  today: string
}

/** Who has the well now, since when, and what the household before may still read. */
export function SaleForm({ action, household, wellName, today }: Props) {
  const [state, send] = useActionState(action, EMPTY_FORM)
  return (
    <form className="form" action={send} noValidate>
      <ErrorSummary state={state} />
      <Field
        state={state}
        name="ownerName"
        label="New household"
        hint="A household that is known already is taken by its name; a new name makes a new one"
        autoComplete="off"
      />
      <div className="fields">
        <Field state={state} name="ownerPhone" label="Phone (optional)" autoComplete="off" inputMode="tel" />
        <Field state={state} name="ownerEmail" label="Email (optional)" autoComplete="off" type="email" />
        <Field state={state} name="on" label="Day of the sale" type="date" initial={today} />
      </div>
      <Field
        state={state}
        name="wellName"
        label="What the well is called from now on (optional)"
        hint="The old name may be the old household’s. Blank: it goes by its label"
        initial={wellName}
      />
      {household === null ? (
        <input type="hidden" name="reads" value="nothing" />
      ) : (
        <Choices
          state={state}
          name="reads"
          label={`What ${household} may still read`}
          initial="nothing"
          options={READS}
        />
      )}
      <SubmitButton>Hand the well over</SubmitButton>
    </form>
  )
}
