'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM } from '@/lib/forms/form'
import { join } from './actions'

export function JoinForm({ code }: { code: string }) {
  const [state, action] = useActionState(join, EMPTY_FORM)
  return (
    <form className="form" action={action} noValidate>
      <ErrorSummary state={state} />
      <Field
        state={state}
        name="code"
        label="Code"
        hint="16 letters and figures, as on the card. Small letters and missing dashes do no harm"
        initial={code}
        autoComplete="off"
        autoCapitalize="characters"
        spellCheck={false}
        maxLength={40}
      />
      <Field state={state} name="name" label="Your name" autoComplete="name" />
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
      <SubmitButton>Make my account</SubmitButton>
    </form>
  )
}
