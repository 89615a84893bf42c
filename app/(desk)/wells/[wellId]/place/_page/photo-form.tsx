'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { type Option, SelectField } from '@/app/ui/field'
import { FileField } from '@/app/ui/file-field'
import { SubmitButton } from '@/app/ui/submit-button'
import { ATTACHMENT_BYTES_MAX, sayBytes } from '@/lib/domain/limits'
import { EMPTY_FORM, type FormState } from '@/lib/forms/form'

type Props = {
  action: (before: FormState, form: FormData) => Promise<FormState>
  abouts: readonly Option[]
}

/** Takes or chooses one photo and says what it shows. */
export function PhotoForm({ action, abouts }: Props) {
  const [state, send] = useActionState(action, EMPTY_FORM)
  return (
    <form className="form" action={send}>
      <ErrorSummary state={state} />
      <SelectField state={state} name="about" label="What it shows" options={abouts} />
      <FileField
        state={state}
        label="Photo"
        hint={`JPEG, PNG or WebP, at most ${sayBytes(ATTACHMENT_BYTES_MAX)}. Where a photo was taken is not kept.`}
        most={ATTACHMENT_BYTES_MAX}
        accept="image/jpeg,image/png,image/webp"
        camera
      />
      <SubmitButton quiet busy="Storing…">
        Add the photo
      </SubmitButton>
    </form>
  )
}
