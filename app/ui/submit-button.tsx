'use client'

import type { MouseEvent, ReactNode } from 'react'
import { useFormStatus } from 'react-dom'

/** Sends the form around it, once: while it is on its way a second press does nothing. */
export function SubmitButton({
  children,
  busy = 'Saving…',
  quiet,
}: {
  children: ReactNode
  busy?: string
  quiet?: boolean
}) {
  const { pending } = useFormStatus()
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
