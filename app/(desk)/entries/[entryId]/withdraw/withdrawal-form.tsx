'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { TextArea } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM, type FormState } from '@/lib/forms/form'

export function WithdrawalForm({
  action,
  newId,
}: {
  action: (before: FormState, form: FormData) => Promise<FormState>
  newId: string
}) {
  const [state, send] = useActionState(action, EMPTY_FORM)
  return (
    <form className="form" action={send} noValidate>
      <ErrorSummary state={state} />
      <input type="hidden" name="newId" value={state.typed.newId || newId} />
      <TextArea state={state} name="reason" label="Why is it withdrawn?" rows={3} />
      <SubmitButton>Withdraw the line</SubmitButton>
    </form>
  )
}
