import { type FormEvent, startTransition, useState } from 'react'
import { requestFormReset } from 'react-dom'
import { formOf } from '@/app/ui/form-of'
import type { Sending } from '@/app/ui/use-sending'
import type { Asking } from '@/app/ui/with-questions'
import { typedFields } from '@/lib/forms/form'
import { type About, askedAgain, keepVisit } from '../keep-visit'
import type { QueuedVisit } from '../store'

/** A form that stays is shown with what the reading of it says: as typed, unless the reading puts it in other fields. */
type Read = { ok: true } | ({ ok: false; errors: Asking['errors'] } & Partial<Asking>)

/**
 * A form without signal: read by the rules of the server against what the phone knows, then kept on the phone; or it
 * stays, filled in, with what is wrong. `mend` is a record that waits already, `first` what its form shows besides what
 * was typed and what the server said. `refills`: see app/ui/use-sending.ts.
 *
 * Answer  the form on its way, and in `kept` the words for what is on the phone, or has been sent, by now.
 */
export function useKeeping(
  about: About,
  mend: QueuedVisit | undefined,
  read: (typed: Asking['typed']) => Read,
  { refills = false, first = () => ({}) }: { refills?: boolean; first?: () => Partial<Asking> } = {},
): Sending & { kept: string | null } {
  const [state, setState] = useState<Asking>(() =>
    mend ? { ...FRESH, ...first(), ...askedAgain(mend, mend.typed) } : FRESH,
  )
  const [kept, setKept] = useState<string | null>(null)
  const [pending, setPending] = useState(false)
  const onSubmit = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault()
    if (pending) return
    const form = formOf(event)
    const element = event.currentTarget
    const typed = typedFields(form)
    const reading = read(typed)
    if (!reading.ok) {
      startTransition(() => {
        if (refills) requestFormReset(element)
        setState(shown(typed, reading))
      })
      return
    }
    setPending(true)
    const after = await keepVisit(form, about)
    setState(after)
    setKept(after.done ?? null)
    setPending(false)
  }
  return { state, kept, pending, form: { onSubmit } }
}

const FRESH: Asking = { typed: {}, errors: {}, questions: {} }

function shown(typed: Asking['typed'], reading: Extract<Read, { ok: false }>): Asking {
  const { ok: _, ...says } = reading
  return { typed, questions: {}, ...says }
}
