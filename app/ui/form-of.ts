import type { FormEvent } from 'react'

/** What stands in a form, with the button that sent it. */
export function formOf({ currentTarget, nativeEvent }: FormEvent<HTMLFormElement>): FormData {
  return new FormData(currentTarget, nativeEvent instanceof SubmitEvent ? nativeEvent.submitter : null)
}
