'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field, TextArea } from '@/app/ui/field'
import { Section } from '@/app/ui/section'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM, type FormState } from '@/lib/forms/form'
import type { RoundHead } from '@/lib/records/rounds'
import { DriverField } from '../../_rounds/driver-field'
import { editRound, throwAway } from './actions'

type Props = { round: RoundHead; people: readonly { id: string; name: string }[]; empty: boolean }

const FIELDS = ['name', 'day', 'startAt', 'endAt', 'person', 'notes']

/** Day, hours, driver and notes of a round; and the way to throw it away while nobody has driven it. */
export function RoundForm({ round, people, empty }: Props) {
  const [state, action] = useActionState<FormState, FormData>(editRound.bind(null, round.id), EMPTY_FORM)
  const field = (name: string, initial: string) => ({ state, name, initial, prefix: 'round-' })
  return (
    <div className="no-print">
      <Section title="Day, hours, driver and notes" state={state} fields={FIELDS}>
        <form className="form form-wide" action={action} noValidate>
          <ErrorSummary state={state} prefix="round-" />
          <input type="hidden" name="version" value={state.typed.version ?? round.version} />
          <div className="fields">
            <Field {...field('name', round.name)} label="Name" />
            <Field {...field('day', round.day)} label="Day" type="date" />
            <Field {...field('startAt', round.startAt)} label="Leave the yard" />
            <Field {...field('endAt', round.endAt)} label="Be back by" />
            <DriverField state={state} initial={round.assignedTo?.id ?? ''} prefix="round-" people={people} />
          </div>
          <TextArea {...field('notes', round.notes ?? '')} label="Notes (optional)" rows={3} />
          <SubmitButton>Save</SubmitButton>
        </form>
        {round.status === 'planned' && empty ? (
          <form action={throwAway.bind(null, round.id)}>
            <button type="submit" className="button button-quiet">
              Throw this round away
            </button>
          </form>
        ) : null}
      </Section>
    </div>
  )
}
