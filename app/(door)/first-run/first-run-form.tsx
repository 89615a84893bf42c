'use client'

import { useActionState } from 'react'
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
      <Field
        state={state}
        name="email"
        label="Email address"
        hint="You sign in with it"
        type="email"
        autoComplete="username"
        spellCheck={false}
      />
      <Field
        state={state}
        name="password"
        label="Password"
        hint="12 characters or more; a few words in a row do well"
        type="password"
        autoComplete="new-password"
      />
      <SubmitButton>Make the account</SubmitButton>
    </form>
  )
}
