'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Choices, Field, TextArea } from '@/app/ui/field'
import { KeepDraft } from '@/app/ui/keep-draft'
import { SubmitButton } from '@/app/ui/submit-button'
import { type Asking, withQuestions } from '@/app/ui/with-questions'
import type { Day } from '@/lib/domain/quantity/day'

const FRESH: Asking = { typed: {}, errors: {}, questions: {} }
const ANSWERS = [
  { value: 'yes', label: 'Yes' },
  { value: 'no', label: 'No' },
  { value: 'not-sure', label: 'Not sure' },
  { value: 'not-applicable', label: 'Does not apply' },
]

type Props = {
  action: (before: Asking, form: FormData) => Promise<Asking>
  questions: readonly string[]
  visitId: string
  day: Day
  by: string
  draftKey: string
}

/** The questions of the form, one after the other; the names of the fields are those of the visit form, which reads them. */
export function InspectionForm({ action, questions, visitId, day, by, draftKey }: Props) {
  const [state, send] = useActionState(action, FRESH)
  return (
    <form className="form" action={send} noValidate id="inspection">
      <ErrorSummary state={withQuestions(state)} />
      <KeepDraft formId="inspection" storageKey={draftKey} />
      <input type="hidden" name="visitId" value={state.typed.visitId ?? visitId} />
      <div className="fields">
        <Field state={state} name="date" label="Day" type="date" initial={day} />
        <Field state={state} name="by" label="Done by" initial={by} autoComplete="name" />
      </div>
      {questions.map((question, i) => (
        <Choices
          key={question}
          state={state}
          name={`sanitary:q${i + 1}`}
          label={`${i + 1}. ${question}`}
          options={ANSWERS}
        />
      ))}
      <TextArea state={state} name="note" label="Note (optional)" rows={3} />
      <div className="visit-save">
        <SubmitButton>Save the inspection</SubmitButton>
      </div>
    </form>
  )
}
