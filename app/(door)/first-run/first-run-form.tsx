'use client'

import { useActionState } from 'react'
import { EmailField, NewPasswordField } from '@/app/ui/account-fields'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM } from '@/lib/forms/form'
import { makeFirstAccount } from './actions'

export function FirstRunForm() {
  const [state, action] = useActionState(makeFirstAccount, EMPTY_FORM)
  return (
    <form className="form" action={action} noValidate>
      <ErrorSummary state={state} />
      <Field
        state={state}
        name="name"
        label="Your name"
        hint="As it stands beside the work in the logbook"
        autoComplete="name"
      />
      <EmailField state={state} />
      <NewPasswordField state={state} />
      <SubmitButton>Make the account</SubmitButton>
    </form>
  )
}
