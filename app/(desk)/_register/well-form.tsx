'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM } from '@/lib/forms/form'
import type { RegisterState } from '@/lib/forms/register-state'
import type { Measured, Models } from './pump-fields'
import { WellFields } from './well-fields'

type Props = {
  action: (state: RegisterState, form: FormData) => Promise<RegisterState>
  initial: Record<string, string>
  measured: readonly Measured[]
  owners: readonly string[]
  areas: readonly string[]
  models: Models
  version?: string
  submit: string
}

export function WellForm({ action, initial, measured, owners, areas, models, version, submit }: Props) {
  const [state, send] = useActionState<RegisterState, FormData>(action, EMPTY_FORM)
  return (
    <form className="form form-wide" action={send} noValidate>
      <ErrorSummary state={state} />
      {version ? <input type="hidden" name="version" value={state.typed.version ?? version} /> : null}
      <WellFields {...{ state, initial, measured, owners, areas, models }} />
      <div className="row">
        <SubmitButton>{submit}</SubmitButton>
      </div>
    </form>
  )
}
