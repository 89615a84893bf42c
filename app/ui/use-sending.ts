'use client'

import { unstable_rethrow } from 'next/navigation'
import { type FormEvent, startTransition, useActionState } from 'react'
import { requestFormReset } from 'react-dom'
import { typedFields } from '@/lib/forms/form'
import { formOf } from './form-of'
import type { Asking } from './with-questions'

const FRESH: Asking = { typed: {}, errors: {}, questions: {} }

const NOT_SENT =
  'This was not sent: there is no connection to the server. Nothing is lost; send it again when there is signal.'
const NO_ANSWER =
  'The server gave no proper answer, so it is not certain that this was stored. Nothing is lost here; send it again in a while: what has arrived already is not stored twice.'

/**
 * A form over a server action that survives a lost connection. Without script the action is sent by the browser as
 * ever. With script a failed sending comes back as the same form with a sentence, instead of taking the page down,
 * and the fields keep what stands in them.
 *
 * Shape   `keep` takes the form where there is no signal, and where files come with it that had better not be sent in one
 *         go; without it the form stays as it is. `refills`: the answer puts other text into fields than was typed (a
 *         pasted table into its rows), so that they are set to it when it comes.
 * Answer  the state to show, whether it is on its way, and what the form element needs.
 */
export function useSending(
  action: Sent,
  keep?: (form: FormData) => Promise<Asking>,
  refills = false,
): Sending {
  const [plain, plainAction] = useActionState(action, FRESH)
  const [sent, send, pending] = useActionState<Asking | null, FormData>(async (before, form) => {
    if (keep && (!navigator.onLine || (isSecureContext && hasFiles(form)))) return keep(form)
    try {
      return await action(before ?? plain, form)
    } catch (error) {
      // Redirects and "not found" travel as errors, and are Next's to handle.
      unstable_rethrow(error)
      if (keep) return keep(form)
      const message = error instanceof TypeError || !navigator.onLine ? NOT_SENT : NO_ANSWER
      // What a form shows again is what stands in it now, with the questions that were answered there.
      return { ...FRESH, typed: typedFields(form), questions: (before ?? plain).questions, message }
    }
  }, null)
  const onSubmit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault()
    if (pending) return
    const form = formOf(event)
    const element = event.currentTarget
    startTransition(() => {
      if (refills) requestFormReset(element)
      send(form)
    })
  }
  return { state: sent ?? plain, pending, form: { action: plainAction, onSubmit } }
}

type Sent = (before: Asking, form: FormData) => Promise<Asking>

/** A form on its way, however it goes. */
export type Sending = { state: Asking; pending: boolean; form: FormProps }

/** A field for files holds one empty file where none was chosen. */
const hasFiles = (form: FormData) =>
  [...form.values()].some((value) => value instanceof File && value.size > 0)

type FormProps = {
  action?: (form: FormData) => void
  onSubmit: (event: FormEvent<HTMLFormElement>) => void
}
