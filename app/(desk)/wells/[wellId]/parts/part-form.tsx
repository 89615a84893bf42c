'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field, SelectField, TextArea } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM, type FormState } from '@/lib/forms/form'

type Props = {
  action: (before: FormState, form: FormData) => Promise<FormState>
  initial: Record<string, string>
  kinds: readonly string[]
  submit: string
}

export function PartForm({ action, initial, kinds, submit }: Props) {
  const [state, send] = useActionState(action, EMPTY_FORM)
  const field = (name: string) => ({ state, name, initial: initial[name] ?? '' })
  return (
    <form className="form" action={send} noValidate>
      <ErrorSummary state={state} />
      <SelectField
        {...field('kind')}
        label="What it is"
        options={[
          // Nothing is taken for chosen: an empty form sent by mistake would list a pump that nobody fitted.
          ...(initial.kind ? [] : [{ value: '', label: 'Choose' }]),
          ...kinds.map((kind) => ({ value: kind, label: kind })),
        ]}
      />
      <div className="fields">
        <Field {...field('model')} label="Model (optional)" />
        <Field {...field('size')} label="Size (optional)" />
        <Field {...field('fittedOn')} label="Fitted on (optional)" type="date" />
        <Field {...field('warrantyUntil')} label="Warranty until (optional)" type="date" />
        <Field {...field('removedOn')} label="Removed on (optional)" type="date" />
      </div>
      <label className="choice">
        <input
          type="checkbox"
          name="beside"
          value="1"
          defaultChecked={(state.typed.kind === undefined ? initial.beside : state.typed.beside) === '1'}
        />
        <span>Others of its kind stand beside it: what a visit fits does not take its place</span>
      </label>
      <TextArea {...field('notes')} label="Notes (optional)" rows={2} />
      <SubmitButton>{submit}</SubmitButton>
    </form>
  )
}
