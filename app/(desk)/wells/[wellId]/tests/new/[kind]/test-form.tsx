'use client'

import { type About, keepVisit } from '@/app/_offline/keep-visit'
import { KeptOnPhone } from '@/app/_offline/kept-on-phone'
import { useSending } from '@/app/ui/use-sending'
import type { Asking } from '@/app/ui/with-questions'
import { TestFields, type TestFieldsProps } from './test-fields'

type Props = TestFieldsProps & {
  action: (before: Asking, form: FormData) => Promise<Asking>
  about: About
}

/** The form of a test with signal. Where the signal fails the test is kept on the phone, and sent when there is some. */
export function TestForm({ action, about, ...props }: Props) {
  const sending = useSending(action, (form) => keepVisit(form, about))
  const { done } = sending.state
  if (done) return <KeptOnPhone says={done} wellId={about.wellId} another={false} />
  return <TestFields {...props} sending={sending} />
}
