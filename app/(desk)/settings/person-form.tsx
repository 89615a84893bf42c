'use client'

import { useActionState } from 'react'
import { NewPasswordField } from '@/app/ui/account-fields'
import { DoneNote } from '@/app/ui/done-note'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Choices, Field } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM } from '@/lib/forms/form'
import { addPerson } from './actions'

const ROLES = [
  { value: 'technician', label: 'Technician: sees every well and writes in the logbook' },
  { value: 'installer', label: 'Installer: also keeps the register, imports, settings and people' },
]

export function PersonForm() {
  const [state, action] = useActionState(addPerson, EMPTY_FORM)
  return (
    <form className="form" action={action} noValidate>
      <ErrorSummary state={state} prefix="person-" />
      <DoneNote state={state} />
      <Field state={state} prefix="person-" name="name" label="Name" autoComplete="off" />
      <Field
        state={state}
        prefix="person-"
        name="email"
        label="Email address"
        type="email"
        autoComplete="off"
        spellCheck={false}
      />
      <Choices state={state} prefix="person-" name="role" label="Role" initial="technician" options={ROLES} />
      <NewPasswordField
        state={state}
        prefix="person-"
        label="First password"
        hint="Tell it to them; they can change it under their account"
      />
      <SubmitButton>Add the person</SubmitButton>
    </form>
  )
}
