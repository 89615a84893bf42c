'use client'

import { type About, keepVisit } from '@/app/_offline/keep-visit'
import { KeptOnPhone } from '@/app/_offline/kept-on-phone'
import { useSending } from '@/app/ui/use-sending'
import type { Asking } from '@/app/ui/with-questions'
import { SearchFields, type SearchProps } from './search-fields'

type Props = SearchProps & {
  action: (before: Asking, form: FormData) => Promise<Asking>
  about: About
}

/** Whether the head was found. Where the signal fails the answer is kept on the phone. */
export function SearchForm({ action, about, ...props }: Props) {
  const sending = useSending(action, (form) => keepVisit(form, about))
  const { done } = sending.state
  if (done) return <KeptOnPhone says={done} wellId={about.wellId} />
  return <SearchFields {...props} sending={sending} />
}
