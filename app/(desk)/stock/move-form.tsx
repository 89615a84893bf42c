'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Choices, Field, SelectField } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM, type FormState } from '@/lib/forms/form'

type Props = {
  action: (before: FormState, form: FormData) => Promise<FormState>
  moveId: string
  day: string
  initial: Record<string, string>
  /** Kinds of part to choose from; null where the part is given. */
  kinds: readonly string[] | null
}

const MOVES = [
  { value: 'counted', label: 'Counted: so many are on the shelf now' },
  { value: 'received', label: 'Received: so many came in' },
  { value: 'taken', label: 'Taken: so many left, other than by a visit that is in a logbook' },
]

/** One line of the stock book: counted, received or taken. */
export function MoveForm({ action, moveId, day, initial, kinds }: Props) {
  const [state, send] = useActionState(action, EMPTY_FORM)
  const field = (name: string) => ({ state, name, initial: initial[name] ?? '' })
  return (
    <form className="form" action={send} noValidate>
      <ErrorSummary state={state} />
      <input type="hidden" name="moveId" value={state.typed.moveId ?? moveId} />
      {kinds ? (
        <div className="fields">
          <SelectField
            {...field('part')}
            label="What it is"
            options={[{ value: '', label: 'Choose' }, ...kinds.map((kind) => ({ value: kind, label: kind }))]}
          />
          <Field
            {...field('model')}
            label="Model or size"
            hint="As you write it when it is fitted, such as 10 in, 20 micron. Blank where there is only one"
          />
        </div>
      ) : (
        <>
          <input type="hidden" name="part" value={initial.part ?? ''} />
          <input type="hidden" name="model" value={initial.model ?? ''} />
        </>
      )}
      <Choices {...field('kind')} label="What happened" options={MOVES} />
      <div className="fields">
        <Field {...field('count')} label="How many" inputMode="numeric" short />
        <Field state={state} name="on" initial={day} label="Day" type="date" />
      </div>
      <Field {...field('reason')} label="Reason or note (optional)" maxLength={300} />
      <SubmitButton>Write it in the book</SubmitButton>
    </form>
  )
}
