'use client'

import { useActionState } from 'react'
import { DoneNote } from '@/app/ui/done-note'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM } from '@/lib/forms/form'
import { saveTiles } from './actions'

export function TilesForm({ url, attribution }: { url: string; attribution: string }) {
  const [state, send] = useActionState(saveTiles, EMPTY_FORM)
  return (
    <form className="form" action={send} noValidate>
      <ErrorSummary state={state} />
      <DoneNote state={state} />
      <Field
        state={state}
        name="url"
        label="Address of the tiles (blank for none)"
        hint="Pictures of 256 points: https://tiles.example/{z}/{x}/{y}.png"
        initial={url}
        spellCheck={false}
        autoCapitalize="none"
      />
      <Field
        state={state}
        name="attribution"
        label="Words beside the map"
        hint="What the owner of the map asks for"
        initial={attribution}
      />
      <div>
        <SubmitButton>Save</SubmitButton>
      </div>
    </form>
  )
}
