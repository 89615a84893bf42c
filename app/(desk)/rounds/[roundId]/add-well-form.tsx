'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM, type FormState } from '@/lib/forms/form'
import { addWell } from './actions'

/** Puts one more well on the round. */
export function AddWellForm({ roundId, version }: { roundId: string; version: number }) {
  const [state, action] = useActionState<FormState, FormData>(addWell.bind(null, roundId), EMPTY_FORM)
  return (
    <form className="form no-print" action={action} noValidate>
      <ErrorSummary state={state} prefix="add-" />
      <input type="hidden" name="version" value={version} />
      <Field
        state={state}
        prefix="add-"
        name="label"
        label="Add a well by its label or name"
        hint="It is put where it costs least, with what is due there within a month"
        autoComplete="off"
        short
      />
      <SubmitButton quiet>Add to the round</SubmitButton>
    </form>
  )
}
