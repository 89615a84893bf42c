'use client'

import { useActionState } from 'react'
import { NewPasswordField } from '@/app/ui/account-fields'
import { DoneNote } from '@/app/ui/done-note'
import { ErrorSummary } from '@/app/ui/error-summary'
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
        <NewPasswordField
          state={state}
          prefix={prefix}
          label="New password"
          hint="They will be signed out everywhere"
        />
        <SubmitButton>Give the new password</SubmitButton>
      </form>
    </details>
  )
}
