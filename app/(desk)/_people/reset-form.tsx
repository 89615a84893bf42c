'use client'

import { useActionState } from 'react'
import { DoneNote } from '@/app/ui/done-note'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM } from '@/lib/forms/form'
import { giveNewPassword } from './actions'

export function ResetForm({ id, name }: { id: string; name: string }) {
  const [state, action] = useActionState(giveNewPassword, EMPTY_FORM)
  const prefix = `reset-${id}-`
  return (
    <details>
      <summary>New password for {name}</summary>
      <form className="form" action={action} noValidate>
        <ErrorSummary state={state} prefix={prefix} />
        <DoneNote state={state} />
        <input type="hidden" name="id" value={id} />
        <Field
          state={state}
          prefix={prefix}
          name="password"
          label="New password"
          hint="12 characters or more. They will be signed out everywhere"
          type="password"
          autoComplete="new-password"
        />
        <SubmitButton>Give the new password</SubmitButton>
      </form>
    </details>
  )
}
