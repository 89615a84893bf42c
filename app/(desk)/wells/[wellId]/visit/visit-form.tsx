'use client'

import { type About, keepVisit } from '@/app/_offline/keep-visit'
import { KeptOnPhone } from '@/app/_offline/kept-on-phone'
import { useSending } from '@/app/ui/use-sending'
import type { VisitState } from './actions'
import { VisitFields, type VisitFormProps } from './visit-fields'

type Props = VisitFormProps & {
  action: (before: VisitState, form: FormData) => Promise<VisitState>
  about: About
}

/** The visit form with signal. Where the signal fails, or photos come with it, the visit is first kept on the phone. */
export function VisitForm({ action, about, ...props }: Props) {
  const sending = useSending(action, (form) => keepVisit(form, about))
  const { done } = sending.state
  if (done) return <KeptOnPhone says={done} wellId={about.wellId} roundId={about.roundId} />
  return <VisitFields {...props} sending={sending} />
}
