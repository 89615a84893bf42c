'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { FileField } from '@/app/ui/file-field'
import { SubmitButton } from '@/app/ui/submit-button'
import { ATTACHMENT_BYTES_MAX, sayBytes } from '@/lib/domain/limits'
import { EMPTY_FORM, type FormState } from '@/lib/forms/form'

/** Adds a photo or a PDF. */
export function AttachForm({
  action,
}: {
  action: (before: FormState, form: FormData) => Promise<FormState>
}) {
  const [state, send] = useActionState(action, EMPTY_FORM)
  return (
    <form className="form" action={send}>
      <ErrorSummary state={state} />
      <FileField
        state={state}
        label="Photo or PDF of the sheet"
        hint={`JPEG, PNG, WebP or PDF, at most ${sayBytes(ATTACHMENT_BYTES_MAX)}. Where a photo was taken is not kept.`}
        most={ATTACHMENT_BYTES_MAX}
        accept="image/jpeg,image/png,image/webp,application/pdf"
      />
      <SubmitButton quiet busy="Attaching…">
        Attach it
      </SubmitButton>
    </form>
  )
}
