'use client'

import { useActionState } from 'react'
import { AskedAgain } from '@/app/ui/asked-again'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field, SelectField, TextArea } from '@/app/ui/field'
import { KeepDraft } from '@/app/ui/keep-draft'
import { SubmitButton } from '@/app/ui/submit-button'
import { type Asking, withQuestions } from '@/app/ui/with-questions'
import type { Day } from '@/lib/domain/quantity/day'

const FRESH: Asking = { typed: {}, errors: {}, questions: {} }

const EVENTS = [
  { value: '', label: 'nothing special' },
  { value: 'flooded', label: 'Water stood over the well' },
  { value: 'ran-dry', label: 'The well ran dry' },
  { value: 'prime-lost', label: 'The pump drew air' },
]

type Meter = { name: string; label: string; unit: string; last: string | undefined }
type Props = {
  action: (before: Asking, form: FormData) => Promise<Asking>
  visitId: string
  draftKey: string
  day: Day
  meters: readonly Meter[]
}

/** A meter or a level read by the household: the number and one press. */
export function ReadingForm({ action, visitId, draftKey, day, meters }: Props) {
  const [state, send] = useActionState(action, FRESH)
  return (
    <form className="form" action={send} noValidate id="reading">
      <ErrorSummary state={withQuestions(state)} />
      <KeepDraft formId="reading" storageKey={draftKey} />
      <input type="hidden" name="visitId" value={state.typed.visitId ?? visitId} />
      {meters.map(({ name, label, unit, last }) => (
        <div key={name}>
          <Field
            state={state}
            name={name}
            label={label}
            hint={last}
            unit={unit}
            inputMode="decimal"
            autoComplete="off"
          />
          <AskedAgain state={state} field={name} />
        </div>
      ))}
      <SelectField state={state} name="event" label="Did something happen?" options={EVENTS} />
      <TextArea
        state={state}
        name="note"
        label="Tell the outfit something (optional)"
        hint="To have somebody come, ask for a visit on its own page"
        rows={3}
      />
      <Field state={state} name="date" label="Day" type="date" initial={day} />
      <SubmitButton>Save</SubmitButton>
    </form>
  )
}
