'use client'

import { useActionState } from 'react'
import { EmailField, NewPasswordField } from '@/app/ui/account-fields'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM } from '@/lib/forms/form'
import { join } from './actions'
import { CodeField } from './code-field'

export function JoinForm({ code }: { code: string }) {
  const [state, action] = useActionState(join, EMPTY_FORM)
  return (
    <form className="form" action={action} noValidate>
      <ErrorSummary state={state} />
      <CodeField state={state} code={code} />
      <Field state={state} name="name" label="Your name" autoComplete="name" />
      <EmailField state={state} />
      <NewPasswordField state={state} />
      <SubmitButton>Make my account</SubmitButton>
    </form>
  )
}
