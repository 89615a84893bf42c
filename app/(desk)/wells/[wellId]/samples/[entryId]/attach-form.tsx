'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM, type FormState } from '@/lib/forms/form'

/** Adds a photo or a PDF. */
export function AttachForm({
  action,
}: {
  action: (before: FormState, form: FormData) => Promise<FormState>
}) {
  const [state, send] = useActionState(action, EMPTY_FORM)
  const error = state.errors.file
  return (
    <form className="form" action={send}>
      <ErrorSummary state={state} />
      <div className={error ? 'field field-wrong' : 'field'}>
        <label className="label" htmlFor="file">
          Photo or PDF of the sheet
        </label>
        <span className="hint" id="file-hint">
          JPEG, PNG, WebP or PDF, at most 10 MB. Where a photo was taken is not kept.
        </span>
        {error ? (
          <span className="error" id="file-error">
            <span className="unseen">Error: </span>
            {error}
          </span>
        ) : null}
        <input
          className="input"
          id="file"
          name="file"
          type="file"
          accept="image/jpeg,image/png,image/webp,application/pdf"
          aria-describedby={error ? 'file-hint file-error' : 'file-hint'}
        />
      </div>
      <SubmitButton quiet busy="Attaching…">
        Attach it
      </SubmitButton>
    </form>
  )
}
