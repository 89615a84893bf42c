'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM } from '@/lib/forms/form'
import type { RegisterState } from '@/lib/forms/register-state'
import { registerField } from '../../_register/register-field'

type Props = {
  action: (state: RegisterState, form: FormData) => Promise<RegisterState>
  initial: Record<string, string>
  version: string
}

/** When an item is to be ordered, and up to how many. */
export function RuleForm({ action, initial, version }: Props) {
  const [state, send] = useActionState<RegisterState, FormData>(action, EMPTY_FORM)
  const field = registerField(state, initial, 'rule-')
  return (
    <form className="form" action={send} noValidate>
      <ErrorSummary state={state} prefix="rule-" />
      <input type="hidden" name="version" value={state.typed.version ?? version} />
      <div className="fields">
        <Field
          {...field('reorderAt', 'Order when as many or fewer are left after what is due')}
          label="Reorder level"
          inputMode="numeric"
          short
        />
        <Field
          {...field('upTo', 'Order so many that the shelf holds this')}
          label="Fill up to"
          inputMode="numeric"
          short
        />
      </div>
      <SubmitButton quiet>Save the level</SubmitButton>
    </form>
  )
}
