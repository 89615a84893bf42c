'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM } from '@/lib/forms/form'
import { addHousehold } from './actions'
import { CodeField } from './code-field'

/** For somebody who has an account: the card adds its household's wells to it. */
export function AddForm({ code }: { code: string }) {
  const [state, action] = useActionState(addHousehold, EMPTY_FORM)
  return (
    <form className="form" action={action} noValidate>
      <ErrorSummary state={state} />
      <CodeField state={state} code={code} />
      <SubmitButton>Add the wells to my account</SubmitButton>
    </form>
  )
}
