import type { FieldProps } from '@/app/ui/field'
import type { RegisterState } from '@/lib/forms/register-state'

/** What one field of a register form is told. */
export type RegisterField = (name: string, hint?: string) => Omit<FieldProps, 'label'>

/**
 * The fields of a register form: what was typed or is stored, and after a clash what somebody else stored meanwhile.
 * `prefix` keeps ids apart where two forms share a page.
 */
export function registerField(
  state: RegisterState,
  initial: Record<string, string>,
  prefix = '',
): RegisterField {
  return (name, hint) => ({
    state,
    name,
    prefix,
    initial: initial[name] ?? '',
    hint: storedHint(state, name, hint),
  })
}

/** A field's hint, and after a clash what somebody else stored in it meanwhile. */
function storedHint(state: RegisterState, name: string, hint?: string) {
  const theirs = state.theirs?.[name]
  if (theirs === undefined) return hint
  return (
    <>
      {hint ? `${hint}. ` : ''}
      <strong>Now stored: {theirs === '' ? 'blank' : theirs}</strong>
    </>
  )
}
