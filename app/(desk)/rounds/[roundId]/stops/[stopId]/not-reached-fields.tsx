import { ErrorSummary } from '@/app/ui/error-summary'
import { Choices, Field, TextArea } from '@/app/ui/field'
import { KeepDraft } from '@/app/ui/keep-draft'
import { SubmitButton } from '@/app/ui/submit-button'
import type { Sending } from '@/app/ui/use-sending'
import type { Day } from '@/lib/domain/quantity'
import { StepChoices } from '../../../../_rounds/step-choices'

export type NotReachedProps = {
  draftKey: string
  stopId: string
  visitId: string
  day: Day
  by: string
}

const OUTCOMES = [
  { value: 'not-found', label: 'Not found: the head was looked for' },
  { value: 'no-access', label: 'No access: nobody could get to the well' },
]

/** What is to be said of a stop at which no work was done; the same with signal and without. */
export function NotReachedFields({
  draftKey,
  stopId,
  visitId,
  day,
  by,
  sending,
}: NotReachedProps & { sending: Sending }) {
  const { state, pending, form } = sending
  return (
    <form className="form" id="not-reached-form" noValidate {...form}>
      <ErrorSummary state={state} />
      <KeepDraft formId="not-reached-form" storageKey={draftKey} />
      <input type="hidden" name="visitId" value={state.typed.visitId ?? visitId} />
      <input type="hidden" name="stopId" value={stopId} />
      <Choices state={state} name="stopOutcome" label="What happened" options={OUTCOMES} />
      <TextArea
        state={state}
        name="stopSaid"
        label="What was tried, or why nobody could get in"
        hint="Such as: both ties measured, probed a yard around. Or: gate locked, nobody at home"
        rows={3}
      />
      <StepChoices
        state={state}
        steps={['visit-again', 'call-owner', 'mend-place', 'search']}
        ticked={['visit-again', 'call-owner']}
      />
      <div className="fields">
        <Field state={state} name="date" label="Day" type="date" initial={day} />
        <Field state={state} name="time" label="Time (optional)" type="time" />
        <Field state={state} name="by" label="Who was there" initial={by} autoComplete="name" />
      </div>
      <SubmitButton sending={pending}>Close the stop</SubmitButton>
    </form>
  )
}
