'use client'

import { useActionState } from 'react'
import { DoneNote } from '@/app/ui/done-note'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM } from '@/lib/forms/form'
import type { Outfit } from '@/lib/records/settings'
import { saveOutfit } from './actions'

export function OutfitForm({ outfit }: { outfit: Outfit }) {
  const [state, action] = useActionState(saveOutfit, EMPTY_FORM)
  return (
    <form className="form" action={action} noValidate>
      <ErrorSummary state={state} prefix="outfit-" />
      <DoneNote state={state} />
      <Field
        state={state}
        prefix="outfit-"
        name="name"
        label="Name (optional)"
        hint="Printed on top of sheets"
        initial={outfit.name}
      />
      <Field
        state={state}
        prefix="outfit-"
        name="contact"
        label="Contact (optional)"
        hint="A phone number or an address, printed beside the name"
        initial={outfit.contact}
      />
      <SubmitButton>Save</SubmitButton>
    </form>
  )
}
