'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM } from '@/lib/forms/form'
import { enter } from './actions'

export function SignInForm({ next }: { next: string }) {
  const [state, action] = useActionState(enter, EMPTY_FORM)
  return (
    <form className="form" action={action} noValidate>
      <ErrorSummary state={state} />
      <input type="hidden" name="next" value={next} />
      <Field
        state={state}
        name="email"
        label="Email address"
        type="email"
        autoComplete="username"
        spellCheck={false}
      />
      <Field state={state} name="password" label="Password" type="password" autoComplete="current-password" />
      <SubmitButton busy="Signing in…">Sign in</SubmitButton>
    </form>
  )
}
