import { type FormEvent, useState } from 'react'
import { formOf } from '@/app/ui/form-of'
import type { Sending } from '@/app/ui/use-sending'
import type { Asking } from '@/app/ui/with-questions'
import { typedFields } from '@/lib/forms/form'
import { type About, askedAgain, keepVisit } from '../keep-visit'
import type { QueuedVisit } from '../store'

type Read = { ok: true } | { ok: false; errors: Asking['errors']; questions?: Asking['questions'] }

/**
 * A form without signal: read by the rules of the server against what the phone knows, then kept on the phone; or it
 * stays, filled in, with what is wrong. `mend` is a record that waits already.
 */
export function useKeeping(
  about: About,
  mend: QueuedVisit | undefined,
  read: (typed: Asking['typed']) => Read,
): Sending {
  const [state, setState] = useState<Asking>(
    mend ? askedAgain(mend, mend.typed) : { typed: {}, errors: {}, questions: {} },
  )
  const [pending, setPending] = useState(false)
  const onSubmit = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault()
    if (pending) return
    const form = formOf(event)
    const typed = typedFields(form)
    const reading = read(typed)
    if (!reading.ok) {
      setState({ typed, errors: reading.errors, questions: reading.questions ?? {} })
      return
    }
    setPending(true)
    setState(await keepVisit(form, about))
    setPending(false)
  }
  return { state, pending, form: { onSubmit } }
}
