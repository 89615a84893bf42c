'use client'

import { useActionState } from 'react'
import { AskedAgain } from '@/app/ui/asked-again'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field, type Option, SelectField, TextArea } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { withQuestions } from '@/app/ui/with-questions'
import type { Day } from '@/lib/domain/quantity/day'
import type { CorrectionState } from './actions'

type FieldText = {
  name: string
  label: string
  value: string
  input: 'line' | 'lines' | 'choice'
  unit?: string
  options?: Option[]
}

const FRESH: CorrectionState = { typed: {}, errors: {}, questions: {} }

export function CorrectionForm(props: {
  action: (before: CorrectionState, form: FormData) => Promise<CorrectionState>
  newId: string
  date: Day
  time: string
  fields: readonly FieldText[]
}) {
  const [state, send] = useActionState(props.action, FRESH)
  return (
    <form className="form" action={send} noValidate>
      <ErrorSummary state={withQuestions(state)} />
      <input type="hidden" name="newId" value={state.typed.newId ?? props.newId} />
      <div className="fields">
        <Field state={state} name="date" label="Day" type="date" initial={props.date} />
        <Field state={state} name="time" label="Time (optional)" type="time" initial={props.time} />
      </div>
      {props.fields.map((field) => (
        <div key={field.name}>
          <One state={state} field={field} />
          <AskedAgain state={state} field={field.name} />
        </div>
      ))}
      <TextArea state={state} name="reason" label="Why is it corrected?" rows={2} />
      <SubmitButton>Save the correction</SubmitButton>
    </form>
  )
}

function One({ state, field }: { state: CorrectionState; field: FieldText }) {
  const { name, label, value, input, unit, options } = field
  if (input === 'lines') return <TextArea state={state} name={name} label={label} initial={value} rows={6} />
  if (input === 'choice')
    return <SelectField state={state} name={name} label={label} initial={value} options={options ?? []} />
  return <Field state={state} name={name} label={label} initial={value} unit={unit} autoComplete="off" />
}
