'use client'

import type { ChangeEvent } from 'react'
import { sayBytes } from '@/lib/domain/limits'
import type { FormState } from '@/lib/forms/form'

type Props = {
  state: FormState
  label: string
  hint: string
  /** Media types that the chooser offers; what is taken is decided by the server. */
  accept: string
  /** The most bytes it may hold: said before a large file sets out, and decided by the server. */
  most: number
  /** Opens the camera at once on a phone. */
  camera?: boolean
}

/** One file of a form, named `file`, with its hint and what is wrong with it. */
export function FileField({ state, label, hint, accept, most, camera }: Props) {
  const weigh = ({ currentTarget }: ChangeEvent<HTMLInputElement>) => {
    const large = [...(currentTarget.files ?? [])].some((file) => file.size > most)
    currentTarget.setCustomValidity(
      large ? `The file is larger than ${sayBytes(most)}. Choose a smaller one` : '',
    )
  }
  const error = state.errors.file
  return (
    <div className={error ? 'field field-wrong' : 'field'}>
      <label className="label" htmlFor="file">
        {label}
      </label>
      <span className="hint" id="file-hint">
        {hint}
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
        accept={accept}
        capture={camera ? 'environment' : undefined}
        onChange={weigh}
        aria-describedby={error ? 'file-hint file-error' : 'file-hint'}
      />
    </div>
  )
}
