'use client'

import { useActionState } from 'react'
import { DoneNote } from '@/app/ui/done-note'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Choices, Field } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM } from '@/lib/forms/form'
import { saveProfile } from './actions'

const UNITS = [
  { value: 'us', label: 'US customary: feet, gallons, psi' },
  { value: 'metric', label: 'Metric: metres, litres, kPa' },
]

export function ProfileForm({ name, units }: { name: string; units: string }) {
  const [state, action] = useActionState(saveProfile, EMPTY_FORM)
  return (
    <form className="form" action={action} noValidate>
      <ErrorSummary state={state} prefix="you-" />
      <DoneNote state={state} />
      <Field state={state} prefix="you-" name="name" label="Your name" initial={name} autoComplete="name" />
      <Choices state={state} prefix="you-" name="units" label="Units" initial={units} options={UNITS} />
      <SubmitButton>Save</SubmitButton>
    </form>
  )
}
