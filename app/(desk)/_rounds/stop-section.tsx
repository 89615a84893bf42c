import { Choices, TextArea } from '@/app/ui/field'
import type { FormState } from '@/lib/forms/form'
import { StepChoices } from './step-choices'
import type { StopToClose } from './stop-to-close'

const OUTCOMES = [
  { value: 'done', label: 'Done: everything that was planned' },
  { value: 'partly', label: 'Partly done' },
]

/** How the stop ended, on the form of its visit. The duties planned there come ticked: untick what was not done. */
export function StopSection({ state, stop }: { state: FormState; stop: StopToClose }) {
  return (
    <section className="sheet stack-tight" aria-label="The stop">
      <p>
        <strong>{stop.words}.</strong>{' '}
        {stop.left.length > 0
          ? `Planned: ${stop.left.join(', ')}. These come ticked below: untick what was not done.`
          : 'No duty was planned here: tick below what was done.'}
      </p>
      {stop.others.length > 0 ? (
        <p>
          Written on the page of its own lines, under “Water: steps and lab sheets”: {stop.others.join(', ')}.
        </p>
      ) : null}
      {stop.note ? <p>Note: {stop.note}</p> : null}
      <input type="hidden" name="stopId" value={stop.id} />
      <Choices state={state} name="stopOutcome" label="How it ended" options={OUTCOMES} initial="done" />
      <TextArea state={state} name="stopSaid" label="What was left, and why (where partly done)" rows={2} />
      <StepChoices state={state} steps={['visit-again', 'call-owner']} ticked={[]} />
    </section>
  )
}
