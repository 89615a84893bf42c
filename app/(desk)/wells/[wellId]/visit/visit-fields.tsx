import { useMemo } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field, type Option } from '@/app/ui/field'
import { KeepDraft } from '@/app/ui/keep-draft'
import { SubmitButton } from '@/app/ui/submit-button'
import type { Sending } from '@/app/ui/use-sending'
import { withQuestions } from '@/app/ui/with-questions'
import type { Day } from '@/lib/domain/quantity/day'
import type { LastField } from '@/lib/records/visit-context'
import { StopSection } from '../../../_rounds/stop-section'
import type { StopToClose } from '../../../_rounds/stop-to-close'
import { OtherSections } from './other-sections'
import { PhotoField } from './photo-field'
import { ReadingSection } from './reading-section'
import type { Units } from './units'
import { WorkSection } from './work-section'

export type VisitFormProps = {
  draftKey: string
  visitId: string
  day: Day
  by: string
  units: Units
  last: Partial<Record<LastField, string>>
  duties: readonly { key: string; name: string; hint: string }[]
  parts: readonly Option[]
  models: readonly string[]
  events: readonly Option[]
  inspection: readonly string[]
  /** The stop of a round that this visit closes; null for a visit of its own. */
  stop: StopToClose | null
}

/** Everything a visit can write, on one page. Sections that are rarely needed are folded away. */
export function VisitFields(props: VisitFormProps & { sending: Sending }) {
  const { draftKey, visitId, day, by, units, last, duties, parts, models, events, inspection, stop } = props
  const { state, pending, form } = props.sending
  // The summary takes the focus for each new answer only.
  const problems = useMemo(() => withQuestions(state), [state])
  return (
    <form className="form visit" noValidate id="visit" {...form}>
      <ErrorSummary state={problems} />
      <KeepDraft formId="visit" storageKey={draftKey} />
      <input type="hidden" name="visitId" value={state.typed.visitId ?? visitId} />
      {stop ? <StopSection state={state} stop={stop} /> : null}
      <div className="fields">
        <Field state={state} name="date" label="Day" type="date" initial={day} />
        <Field state={state} name="time" label="Time (optional)" type="time" />
        <Field state={state} name="by" label="Done by" initial={by} autoComplete="name" />
      </div>
      <WorkSection state={state} duties={duties} parts={parts} models={models} ticked={stop?.ticked ?? []} />
      <ReadingSection state={state} units={units} last={last} />
      <OtherSections state={state} units={units} events={events} inspection={inspection} />
      <PhotoField />
      <div className="visit-save">
        <SubmitButton sending={pending}>{stop ? 'Save and close the stop' : 'Save the visit'}</SubmitButton>
      </div>
    </form>
  )
}
