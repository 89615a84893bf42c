import type { RegisterState } from '@/lib/forms/register-state'

/** A field's hint, and after a clash what somebody else stored in it meanwhile. */
export function storedHint(state: RegisterState, name: string, hint?: string) {
  const theirs = state.theirs?.[name]
  if (theirs === undefined) return hint
  return (
    <>
      {hint ? `${hint}. ` : ''}
      <strong>Now stored: {theirs === '' ? 'blank' : theirs}</strong>
    </>
  )
}
