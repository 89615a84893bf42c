'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { type Option, SelectField } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM, type FormState } from '@/lib/forms/form'

type Props = {
  action: (before: FormState, form: FormData) => Promise<FormState>
  abouts: readonly Option[]
}

/** Takes or chooses one photo and says what it shows. */
export function PhotoForm({ action, abouts }: Props) {
  const [state, send] = useActionState(action, EMPTY_FORM)
  const error = state.errors.file
  return (
    <form className="form" action={send}>
      <ErrorSummary state={state} />
      <SelectField state={state} name="about" label="What it shows" options={abouts} />
      <div className={error ? 'field field-wrong' : 'field'}>
        <label className="label" htmlFor="file">
          Photo
        </label>
        <span className="hint" id="file-hint">
          JPEG, PNG or WebP, at most 10 MB. Where a photo was taken is not kept.
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
          accept="image/jpeg,image/png,image/webp"
          capture="environment"
          aria-describedby={error ? 'file-hint file-error' : 'file-hint'}
        />
      </div>
      <SubmitButton quiet busy="Storing…">
        Add the photo
      </SubmitButton>
    </form>
  )
}
