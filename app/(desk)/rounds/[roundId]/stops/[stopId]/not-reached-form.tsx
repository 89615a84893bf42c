'use client'

import { type About, keepVisit } from '@/app/_offline/keep-visit'
import { KeptOnPhone } from '@/app/_offline/kept-on-phone'
import { useSending } from '@/app/ui/use-sending'
import type { Asking } from '@/app/ui/with-questions'
import { NotReachedFields, type NotReachedProps } from './not-reached-fields'

type Props = NotReachedProps & {
  action: (before: Asking, form: FormData) => Promise<Asking>
  about: About
}

/** The short form of a stop at which no work was done. Where the signal fails it is kept on the phone. */
export function NotReachedForm({ action, about, ...props }: Props) {
  const sending = useSending(action, (form) => keepVisit(form, about))
  const { done } = sending.state
  if (done) return <KeptOnPhone says={done} wellId={about.wellId} roundId={about.roundId} />
  return <NotReachedFields {...props} sending={sending} />
}
