'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field, SelectField } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM } from '@/lib/forms/form'
import { saveLimit } from './actions'

const KINDS = [
  { value: 'health', label: 'Health: a result above it exceeds' },
  { value: 'action', label: 'Action level: a result above it exceeds' },
  { value: 'advisory', label: 'Advisory: told beside the verdict' },
  { value: 'aesthetic', label: 'Taste, colour, stains: told beside the verdict' },
]

/** Adds a limit, or changes the one named `was`. */
export function LimitForm({ was, initial }: { was: string; initial: Readonly<Record<string, string>> }) {
  const [state, action] = useActionState(saveLimit, EMPTY_FORM)
  const given = (name: string) => ({ state, name, initial: initial[name] })
  return (
    <form className="form" action={action} noValidate>
      <ErrorSummary state={state} />
      <input type="hidden" name="was" value={was} />
      <Field {...given('analyte')} label="What the limit is for" list="analytes" autoComplete="off" />
      <SelectField {...given('kind')} label="What it is about" options={KINDS} />
      <div className="fields">
        <Field {...given('max')} label="Limit" hint="At the limit still meets" inputMode="decimal" />
        <Field {...given('min')} label="Least value (optional)" hint="As for pH" inputMode="decimal" />
        <Field {...given('unit')} label="Unit" hint="As on a sheet: µg/L, mg/L as N" autoComplete="off" />
      </div>
      <Field
        {...given('source')}
        label="Source"
        hint="Who set it, and where it can be read"
        maxLength={400}
      />
      <div className="fields">
        <Field {...given('date')} label="Date of the source" hint="A year or a day" maxLength={40} />
        <Field {...given('from')} label="Holds from (optional)" type="date" />
        <Field {...given('until')} label="No longer from (optional)" type="date" />
      </div>
      <SubmitButton>{was === '' ? 'Add the limit' : 'Change the limit'}</SubmitButton>
    </form>
  )
}
