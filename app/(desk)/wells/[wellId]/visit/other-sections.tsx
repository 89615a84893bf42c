import { Choices, Field, type Option, SelectField, TextArea } from '@/app/ui/field'
import { Section } from '@/app/ui/section'
import type { VisitState } from './actions'
import type { Units } from './units'

type Props = { state: VisitState; units: Units }

const METER_OPTIONS = [
  { value: '', label: 'none' },
  { value: 'hours', label: 'hour meter' },
  { value: 'volume', label: 'volume meter' },
]
const ANSWERS = [
  { value: 'yes', label: 'Yes' },
  { value: 'no', label: 'No' },
  { value: 'not-applicable', label: 'Does not apply' },
  { value: 'not-sure', label: 'Not sure' },
]

/** What a visit only now and then has: an event, a well test, a water sample, an inspection; and the note. */
export function OtherSections({
  state,
  units,
  events,
  inspection,
}: Props & { events: readonly Option[]; inspection: readonly string[] }) {
  return (
    <>
      <Section
        title="Something happened"
        state={state}
        fields={['event', 'eventMeter', 'eventOldReading', 'eventNewReading']}
      >
        <SelectField state={state} name="event" label="Event" options={events} />
        <p className="hint">If a meter was replaced, enter which, and both readings:</p>
        <div className="fields">
          <SelectField state={state} name="eventMeter" label="Meter replaced" options={METER_OPTIONS} />
          <Field
            state={state}
            name="eventOldReading"
            label="Last reading of the old one"
            inputMode="decimal"
          />
          <Field
            state={state}
            name="eventNewReading"
            label="First reading of the new one"
            inputMode="decimal"
          />
        </div>
      </Section>
      <TestSections state={state} units={units} />
      <SampleSection state={state} />
      <InspectionSection state={state} questions={inspection} />
      <TextArea state={state} name="note" label="Note (optional)" rows={4} />
    </>
  )
}

function TestSections({ state, units }: Props) {
  const level = units.depth
  const flow = units.flow
  const example = level === 'ft' ? '0, 8.6\n2, 7.9\n5, 7.2' : '0, 2.62\n2, 2.41\n5, 2.19'
  const list = (shape: string) =>
    `One reading a line: ${shape}. For example: ${example.split('\n').join(' / ')}`
  return (
    <>
      <Section title="Recovery test" state={state} fields={['recoveryStatic', 'recoveryReadings']}>
        <p className="hint">Minutes since the pump stopped, and the water level as it rises.</p>
        <Field
          state={state}
          name="recoveryStatic"
          label="Level at rest before the test"
          unit={level}
          inputMode="decimal"
          short
        />
        <TextArea
          state={state}
          name="recoveryReadings"
          label="Readings of the recovery"
          hint={list(`minutes, level (${level})`)}
          rows={6}
        />
      </Section>
      <Section
        title="Drawdown test"
        state={state}
        fields={['drawdownStatic', 'drawdownFlow', 'drawdownReadings']}
      >
        <div className="fields">
          <Field state={state} name="drawdownStatic" label="Level at rest" unit={level} inputMode="decimal" />
          <Field state={state} name="drawdownFlow" label="Pumped at" unit={flow} inputMode="decimal" />
        </div>
        <TextArea
          state={state}
          name="drawdownReadings"
          label="Readings of the drawdown"
          hint={`One reading a line: minutes since the pump started, level (${level})`}
          rows={6}
        />
      </Section>
      <Section title="Step test" state={state} fields={['stepStatic', 'stepReadings']}>
        <Field
          state={state}
          name="stepStatic"
          label="Level at rest before the steps"
          unit={level}
          inputMode="decimal"
          short
        />
        <TextArea
          state={state}
          name="stepReadings"
          label="Steps"
          hint={`One step a line: flow (${flow}), minutes, level at its end (${level})`}
          rows={5}
        />
      </Section>
    </>
  )
}

function SampleSection({ state }: { state: VisitState }) {
  const fields = [
    'sampleDate',
    'sampleTime',
    'receivedDate',
    'receivedTime',
    'sampleLab',
    'sampleId',
    'samplePoint',
    'sampleResults',
  ]
  return (
    <Section title="Water sample: the lab's sheet" state={state} fields={fields}>
      <p className="hint">
        Chlorine, warmth on arrival and what was ordered are asked for by “Enter a lab sheet”, and steps after
        a positive by their own page: both stand under “Water: steps and lab sheets” above.
      </p>
      <div className="fields">
        <Field state={state} name="sampleDate" label="Sampled on" type="date" />
        <Field state={state} name="sampleTime" label="Sampled at" type="time" />
        <Field state={state} name="receivedDate" label="Received by the lab on" type="date" />
        <Field state={state} name="receivedTime" label="Received at" type="time" />
        <Field state={state} name="sampleLab" label="Laboratory" />
        <Field state={state} name="sampleId" label="Sample number" autoComplete="off" />
        <Field state={state} name="samplePoint" label="Taken from" hint="kitchen tap, tank, wellhead" />
      </div>
      <TextArea
        state={state}
        name="sampleResults"
        label="Results as on the sheet"
        hint="One a line: analyte, result, unit. Or paste the table. Write <1, ND, Absent, >2419.6 just as the lab does."
        rows={6}
      />
    </Section>
  )
}

function InspectionSection({ state, questions }: { state: VisitState; questions: readonly string[] }) {
  const names = questions.map((_, i) => `sanitary:q${i + 1}`)
  return (
    <Section title="Sanitary inspection" state={state} fields={names}>
      <p className="hint">
        Dug-well form of the World Health Organization, wording from memory. A &quot;yes&quot; is a risk.
        Leave open what you did not look at.
      </p>
      {questions.map((question, i) => (
        <Choices
          key={question}
          state={state}
          name={`sanitary:q${i + 1}`}
          label={question}
          options={ANSWERS}
        />
      ))}
    </Section>
  )
}
