'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Choices, type Option } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM, type FormState } from '@/lib/forms/form'

type Props = {
  action: (before: FormState, form: FormData) => Promise<FormState>
  options: readonly Option[]
}

/** Asked twice: who, and whether it is meant. */
export function ForgetForm({ action, options }: Props) {
  const [state, send] = useActionState(action, EMPTY_FORM)
  return (
    <form className="form" action={send} noValidate>
      <ErrorSummary state={state} />
      <Choices state={state} name="who" label="Whom to forget" options={options} />
      <Choices
        state={state}
        name="sure"
        label="Are you sure?"
        options={[{ value: 'yes', label: 'Yes. This cannot be undone' }]}
      />
      <SubmitButton busy="Forgetting…">Forget them</SubmitButton>
    </form>
  )
}
