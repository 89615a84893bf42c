import type { FormState } from './form'

/** A register form's state: after a clash, `theirs` holds what is stored now, by field. */
export type RegisterState = FormState & { theirs?: Record<string, string> }

/**
 * The state after somebody else changed the same thing first. What was typed stays in the fields, what they stored
 * stands beside each field that differs, and the form now builds on their version: sending it again is a choice.
 */
export function clash(
  typed: Readonly<Record<string, string>>,
  stored: Readonly<Record<string, string>>,
  version: number,
): RegisterState {
  const differing = Object.entries(stored).filter(
    ([name, text]) => (typed[name] ?? '').trim() !== text.trim(),
  )
  return {
    typed: { ...typed, version: String(version) },
    errors: {},
    message:
      'Somebody else changed this while the form was open. Nothing of yours was stored yet. Beside each field that differs stands what is stored now: keep yours or take theirs, then save again.',
    theirs: Object.fromEntries(differing),
  }
}
