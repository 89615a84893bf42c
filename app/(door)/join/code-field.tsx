import { Field } from '@/app/ui/field'
import type { FormState } from '@/lib/forms/form'

/** The code of a card, read however it is typed. */
export function CodeField({ state, code }: { state: FormState; code: string }) {
  return (
    <Field
      state={state}
      name="code"
      label="Code"
      hint="16 letters and figures, as on the card. Small letters and missing dashes do no harm"
      initial={code}
      autoComplete="off"
      autoCapitalize="characters"
      spellCheck={false}
      maxLength={40}
    />
  )
}
