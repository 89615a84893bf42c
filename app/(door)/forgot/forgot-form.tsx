'use client'

import { useActionState } from 'react'
import { DoneNote } from '@/app/ui/done-note'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM } from '@/lib/forms/form'
import { askForReset } from './actions'

export function ForgotForm() {
  const [state, action] = useActionState(askForReset, EMPTY_FORM)
  return (
    <form className="form" action={action} noValidate>
      <ErrorSummary state={state} />
      <DoneNote state={state} />
      <Field
        state={state}
        name="email"
        label="Email address"
        hint="The one you sign in with"
        type="email"
        autoComplete="username"
        spellCheck={false}
      />
      <SubmitButton busy="Sending…">Send me a link</SubmitButton>
    </form>
  )
}
