'use client'

import { useActionState } from 'react'
import { NewPasswordField } from '@/app/ui/account-fields'
import { DoneNote } from '@/app/ui/done-note'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM } from '@/lib/forms/form'
import { savePassword } from './actions'

export function PasswordForm() {
  const [state, action] = useActionState(savePassword, EMPTY_FORM)
  return (
    <form className="form" action={action} noValidate>
      <ErrorSummary state={state} prefix="password-" />
      <DoneNote state={state} />
      <Field
        state={state}
        prefix="password-"
        name="current"
        label="Password you have now"
        type="password"
        autoComplete="current-password"
      />
      <NewPasswordField
        state={state}
        prefix="password-"
        name="fresh"
        label="New password"
        hint="Every other browser will be signed out"
      />
      <SubmitButton>Change the password</SubmitButton>
    </form>
  )
}
