'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Choices, Field, TextArea } from '@/app/ui/field'
import { KeepDraft } from '@/app/ui/keep-draft'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM, type FormState } from '@/lib/forms/form'

const ABOUT = [
  { value: 'water', label: 'The water tastes, smells or looks odd' },
  { value: 'flow', label: 'Too little water, or none' },
  { value: 'pump', label: 'The pump or its power' },
  { value: 'flood', label: 'Water stood over the well' },
  { value: 'look', label: 'Please have a look when you are near' },
  { value: 'other', label: 'Something else' },
]
const SOON = [
  { value: 'no', label: 'When it suits' },
  { value: 'yes', label: 'As soon as you can' },
]

type Props = {
  action: (before: FormState, form: FormData) => Promise<FormState>
  visitId: string
  draftKey: string
}

/** What it is about, how soon, and how to call back. */
export function AskForm({ action, visitId, draftKey }: Props) {
  const [state, send] = useActionState(action, EMPTY_FORM)
  return (
    <form className="form" action={send} noValidate id="ask">
      <ErrorSummary state={state} />
      <KeepDraft formId="ask" storageKey={draftKey} />
      <input type="hidden" name="visitId" value={state.typed.visitId ?? visitId} />
      <Choices state={state} name="about" label="What is it about?" options={ABOUT} />
      <Choices state={state} name="urgent" label="How soon?" initial="no" options={SOON} />
      <TextArea state={state} name="words" label="What did you see, and since when? (optional)" rows={3} />
      <Field
        state={state}
        name="phone"
        label="Phone to call back (optional)"
        type="tel"
        autoComplete="tel"
        inputMode="tel"
      />
      <SubmitButton busy="Sending…">Ask for a visit</SubmitButton>
    </form>
  )
}
