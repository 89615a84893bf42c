'use client'

import type { MouseEvent, ReactNode } from 'react'
import { useFormStatus } from 'react-dom'

/** Sends the form around it, once: while it is on its way a second press does nothing. */
export function SubmitButton({
  children,
  busy = 'Saving…',
  quiet,
  sending,
}: {
  children: ReactNode
  busy?: string
  quiet?: boolean
  /** For a form that is sent by its own hand (useSending) and not by its action. */
  sending?: boolean
}) {
  const status = useFormStatus()
  const pending = sending ?? status.pending
  const hold = (event: MouseEvent) => {
    if (pending) event.preventDefault()
  }
  return (
    <button
      type="submit"
      className={quiet ? 'button button-quiet' : 'button'}
      aria-disabled={pending}
      onClick={hold}
    >
      {pending ? busy : children}
    </button>
  )
}
