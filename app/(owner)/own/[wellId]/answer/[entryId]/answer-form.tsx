'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { TextArea } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM, type FormState } from '@/lib/forms/form'

type Props = { action: (before: FormState, form: FormData) => Promise<FormState>; visitId: string }

export function AnswerForm({ action, visitId }: Props) {
  const [state, send] = useActionState(action, EMPTY_FORM)
  return (
    <form className="form" action={send} noValidate>
      <ErrorSummary state={state} />
      <input type="hidden" name="visitId" value={state.typed.visitId ?? visitId} />
      <TextArea state={state} name="words" label="Your answer" rows={3} />
      <SubmitButton busy="Sending…">Send the answer</SubmitButton>
    </form>
  )
}
