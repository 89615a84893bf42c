'use client'

import { useActionState } from 'react'
import { NewPasswordField } from '@/app/ui/account-fields'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM } from '@/lib/forms/form'
import { setNewPassword } from './actions'

export function NewPasswordForm({ code }: { code: string }) {
  const [state, action] = useActionState(setNewPassword, EMPTY_FORM)
  return (
    <form className="form" action={action} noValidate>
      <ErrorSummary state={state} />
      <Field
        state={state}
        name="code"
        label="Code"
        hint="From the card; a link brings its own. Small letters and missing dashes do no harm"
        initial={code}
        autoComplete="off"
        autoCapitalize="off"
        spellCheck={false}
        maxLength={60}
      />
      <NewPasswordField state={state} label="New password" />
      <SubmitButton>Set the new password</SubmitButton>
    </form>
  )
}
