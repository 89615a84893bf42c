'use client'

import { useActionState } from 'react'
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
      <Field
        state={state}
        prefix="password-"
        name="fresh"
        label="New password"
        hint="12 characters or more. Every other browser will be signed out"
        type="password"
        autoComplete="new-password"
      />
      <SubmitButton>Change the password</SubmitButton>
    </form>
  )
}
