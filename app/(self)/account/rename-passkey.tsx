'use client'

import { useActionState } from 'react'
import { DoneNote } from '@/app/ui/done-note'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM } from '@/lib/forms/form'
import { renameOwnPasskey } from './passkey-actions'

export function RenamePasskey({ id, name }: { id: string; name: string }) {
  const [state, action] = useActionState(renameOwnPasskey, EMPTY_FORM)
  const prefix = `passkey-${id}-`
  return (
    <details>
      <summary>Rename {name}</summary>
      <form className="form" action={action} noValidate>
        <ErrorSummary state={state} prefix={prefix} />
        <DoneNote state={state} />
        <input type="hidden" name="id" value={id} />
        <Field state={state} prefix={prefix} name="name" label="New name" initial={name} maxLength={60} />
        <SubmitButton>Rename</SubmitButton>
      </form>
    </details>
  )
}
