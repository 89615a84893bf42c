import { Field } from '@/app/ui/field'
import type { ChosenStep } from '@/lib/domain/place'
import type { FormState } from '@/lib/forms/form'

const WORDS: Record<ChosenStep, string> = {
  'visit-again': 'Come again soon (within 7 days for health, 14 for supply, 30 for wear)',
  'call-owner': 'Call the owner',
  'mend-place': 'Mend what is on record of the place (where not found)',
  search: 'Plan a search with a probe or by digging (where not found)',
}

/** What is to follow, to tick, and in one's own words. It stays with the stop until somebody settles it. */
export function StepChoices({
  state,
  steps,
  ticked,
}: {
  state: FormState
  steps: readonly ChosenStep[]
  ticked: readonly ChosenStep[]
}) {
  const fresh = state.typed.visitId === undefined
  return (
    <>
      <fieldset className="field">
        <legend>To follow (optional)</legend>
        {steps.map((step) => (
          <label className="choice" key={step}>
            <input
              type="checkbox"
              name={`step:${step}`}
              value="yes"
              defaultChecked={fresh ? ticked.includes(step) : state.typed[`step:${step}`] !== undefined}
            />
            <span>{WORDS[step]}</span>
          </label>
        ))}
      </fieldset>
      <Field state={state} name="stopOther" label="Anything else to follow (optional)" maxLength={400} />
    </>
  )
}
