'use client'

import { useActionState } from 'react'
import { DoneNote } from '@/app/ui/done-note'
import { ErrorSummary } from '@/app/ui/error-summary'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM } from '@/lib/forms/form'
import type { RegisterState } from '@/lib/forms/register-state'
import { DutyFields, type LimitUnits } from './duty-fields'

type Props = {
  action: (state: RegisterState, form: FormData) => Promise<RegisterState>
  initial: Record<string, string>
  units: LimitUnits
  submit: string
  /** Sent along unseen. */
  hidden?: readonly { name: string; value: string }[]
  version?: string
  /** A second way to send the form. */
  retire?: boolean
}

export function DutyForm({ action, initial, units, submit, hidden = [], version, retire }: Props) {
  const [state, send] = useActionState<RegisterState, FormData>(action, EMPTY_FORM)
  return (
    <form className="form" action={send} noValidate>
      <ErrorSummary state={state} />
      <DoneNote state={state} />
      {hidden.map(({ name, value }) => (
        <input key={`${name}=${value}`} type="hidden" name={name} value={value} />
      ))}
      {version ? <input type="hidden" name="version" value={state.typed.version ?? version} /> : null}
      <DutyFields state={state} initial={initial} units={units} />
      {retire ? (
        <label className="choice">
          <input type="checkbox" name="retired" value="1" defaultChecked={state.typed.retired === '1'} />
          <span>Retire this duty: it is no longer due on this well; its logbook stays</span>
        </label>
      ) : null}
      <div className="row">
        <SubmitButton>{submit}</SubmitButton>
      </div>
    </form>
  )
}
