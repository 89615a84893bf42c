'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field, SelectField, TextArea } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM, type FormState } from '@/lib/forms/form'

type Props = {
  action: (before: FormState, form: FormData) => Promise<FormState>
  /** Numbers made with the page, so that pressing twice stores once. */
  visitIds: readonly [string, string]
  /** Whether it has been asked about already. */
  asked?: boolean
  /** The entry: keeps ids apart on a page with several. */
  id: string
}

/** One press where a line of a household is right; a question where it is not clear. */
export function LookForms({ action, visitIds, asked, id }: Props) {
  const [confirming, confirm] = useActionState(action, EMPTY_FORM)
  const [asking, ask] = useActionState(action, EMPTY_FORM)
  const prefix = `q-${id}-`
  const open = Object.keys(asking.errors).length > 0 || asking.message !== undefined
  return (
    <div className="stack-tight no-print">
      <form action={confirm}>
        <ErrorSummary state={confirming} prefix={`c-${id}-`} />
        <input type="hidden" name="visitId" value={visitIds[0]} />
        <input type="hidden" name="verdict" value="confirmed" />
        <SubmitButton>Looked at: it is right</SubmitButton>
      </form>
      <details open={open}>
        <summary>{asked ? 'Ask again' : 'Ask the household'}</summary>
        <form className="form" action={ask} noValidate>
          <ErrorSummary state={asking} prefix={prefix} />
          <input type="hidden" name="visitId" value={visitIds[1]} />
          <input type="hidden" name="verdict" value="queried" />
          <TextArea
            state={asking}
            prefix={prefix}
            name="words"
            label="Question"
            hint="It stands on the household’s page until they answer"
            rows={2}
          />
          <SubmitButton quiet busy="Sending…">
            Ask
          </SubmitButton>
        </form>
      </details>
    </div>
  )
}

const ANSWERS = [
  { value: '', label: 'choose' },
  { value: 'planned', label: 'We come on the day below' },
  { value: 'done', label: 'We were there: it is done' },
  { value: 'not-coming', label: 'No visit: see the words below' },
]

/** What becomes of a visit that was asked for. */
export function VisitForm({ action, visitIds, id }: Props) {
  const [state, send] = useActionState(action, EMPTY_FORM)
  const prefix = `v-${id}-`
  const open = Object.keys(state.errors).length > 0 || state.message !== undefined
  return (
    <details className="no-print" open={open}>
      <summary>Answer</summary>
      <form className="form" action={send} noValidate>
        <ErrorSummary state={state} prefix={prefix} />
        <input type="hidden" name="visitId" value={visitIds[0]} />
        <SelectField state={state} prefix={prefix} name="answer" label="Answer" options={ANSWERS} />
        <Field state={state} prefix={prefix} name="promised" label="Day of the visit" type="date" short />
        <TextArea state={state} prefix={prefix} name="words" label="In words (optional)" rows={2} />
        <SubmitButton>Save the answer</SubmitButton>
      </form>
    </details>
  )
}
